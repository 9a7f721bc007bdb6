#pragma once

#include <span>
#include <vector>

#include "plan/order/order_to_make.h"

namespace blankwright {

/// The oven for blanks of several orders that lie in it together: of those that they would have by themselves the
/// first that takes the largest of them, as it is sawn; the first order's where none does. Null where the shop has
/// none. At least one order.
const OvenFacts* oven_together(std::span<const OrderToMake* const> orders);

/// The same of the orders that share a bath.
template <class Share>
const OvenFacts* oven_together(const std::vector<Share>& shares, std::span<const OrderToMake> orders) {
  std::vector<const OrderToMake*> together;
  for (const Share& share : shares) together.push_back(&orders[share.order]);
  return oven_together(together);
}

}  // namespace blankwright
