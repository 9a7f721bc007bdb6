#pragma once

#include <optional>
#include <span>
#include <vector>

#include "plan/order/order_to_make.h"
#include "plan/shop/shop_plan.h"

namespace blankwright {

/// What is placed as one: a bath with what its orders do behind it, or an order that has no bath to come.
struct Turn {
  std::optional<std::size_t> bath;
  std::size_t order = 0;  ///< that has none; of a bath the most urgent one in it
};

/// In which turn the baths of a plan, and orders without one, are placed: those that hold a place first, then light
/// dyes before dark ones, since a vessel has to be cleaned between; in each what is due first. Baths of one resin and
/// dye stay as they were formed: one may take the resin that another leaves over.
std::vector<Turn> turns_by_dye(const ShopPlan& plan, std::span<const OrderToMake> orders);

/// The same by what is due first, whatever its dye.
std::vector<Turn> turns_by_date(const ShopPlan& plan, std::span<const OrderToMake> orders);

/// With one of them moved to another's place; none where that would put a bath before one of its kind, or what is new
/// before what holds a place.
std::optional<std::vector<Turn>> moved(std::vector<Turn> turns, std::size_t from, std::size_t to,
                                       std::span<const OrderToMake> orders);

}  // namespace blankwright
