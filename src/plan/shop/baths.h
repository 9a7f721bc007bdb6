#pragma once

#include <span>

#include "plan/order/order_to_make.h"
#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// Forms the baths of all orders that are to have one, in the order in which they are to be made: see plan_shop().
/// A vessel that is out of order for a week or more is waited for only by what fits no other. By the day of `time` is
/// told in `out` which activated resin on hand is good no more.
std::vector<PlannedBath> form_baths(std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time,
                                    Diagnostics& out);

/// The loads of a bath's blanks: as few as can be, of nearly one size, in as much room as the largest of them needs.
/// Without an oven there are none.
std::vector<PlannedLoad> form_loads(const PlannedBath& bath, std::size_t number, std::span<const OrderToMake> orders);

}  // namespace blankwright
