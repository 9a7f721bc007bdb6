#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "plan/order/order_material.h"
#include "plan/shop/shop_plan.h"

namespace blankwright {

/// What orders still need of one thing.
template <class Amount>
struct Needed {
  std::string name;                   ///< of the resin; species, condition and size of the wood; thread and length
  Amount needed{};                    ///< by all of them
  std::optional<Amount> there{};      ///< of wood and studs no more than is needed; none where nobody said
  Amount missing{};                   ///< all of it where nobody said what there is
  std::optional<Instant> from{};      ///< when the first of what is missing is wanted; none where nothing is
  std::vector<std::string> orders{};  ///< that need it, by when they do
};

/// What all orders of a plan still need, by name.
struct ShopNeeds {
  std::vector<Needed<Volume>> resin;    ///< fresh; of each bath to come, without what is poured into it already
  std::vector<Needed<Mass>> activator;  ///< for that
  std::vector<Needed<int>> wood;        ///< blanks to be sawn
  std::vector<Needed<int>> studs;
};

/// Sums it up over all orders and the baths to come, against what the shop file and the jobs say is there. What left-
/// over resin does is in the baths as they are planned. Boards count for the order that names them; studs are cut as
/// studs_from_stock() does. `materials` of each of the orders.
ShopNeeds shop_needs(const ShopPlan& plan, std::span<const OrderToMake> orders,
                     std::span<const OrderMaterial> materials, const Shop& shop);

}  // namespace blankwright
