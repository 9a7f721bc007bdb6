#pragma once

#include <span>
#include <vector>

#include "plan/order/order_to_make.h"

namespace blankwright {

/// The oven for blanks of several orders that lie in it together: of those that they would have by themselves the
/// first that takes the largest of them, as it is sawn; the first order's where none does. Null where the shop has
/// none. At least one order.
const OvenFacts* oven_together(std::span<const OrderToMake* const> orders);

/// Blanks that lie in an oven at once, each with the room of the largest.
struct LyingAtOnce {
  int count = 0;
  Length section, length;
};

/// The ovens in the place of the first one for blanks of several orders: of those that would do for each of them the
/// ones that take as many at once, dried or cured.
std::vector<FurtherOven> further_ovens(std::span<const OrderToMake* const> orders, const OvenFacts& first,
                                       const LyingAtOnce& drying, const LyingAtOnce& curing);

/// All ovens that would do for an order.
std::vector<const OvenFacts*> ovens_for(const OrderToMake& order);

/// The cure of an order's blanks in one of the ovens that would do for them; null where it is none of those.
const Cure* cure_in(const OrderToMake& order, const OvenFacts& oven);

template <class Share>
std::vector<const OrderToMake*> orders_of(const std::vector<Share>& shares, std::span<const OrderToMake> orders) {
  std::vector<const OrderToMake*> together;
  for (const Share& share : shares) together.push_back(&orders[share.order]);
  return together;
}

/// The oven for orders that share a bath.
template <class Share>
const OvenFacts* oven_together(const std::vector<Share>& shares, std::span<const OrderToMake> orders) {
  return oven_together(orders_of(shares, orders));
}

}  // namespace blankwright
