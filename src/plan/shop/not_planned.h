#pragma once

#include "plan/routing/schedule.h"
#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// A shop, and when it works.
struct ShopInTime {
  const Shop& shop;
  const ShopTime& time;
};

/// Says that an order cannot be planned, at the operation that stands in the way, and what would make it possible.
/// `ops` are those that were tried, by themselves.
void say_not_planned(Diagnostics& said, const OrderToMake& order, const OperationFacts& facts,
                     const std::vector<Operation>& ops, const Obstacle& obstacle, const ShopInTime& in);

}  // namespace blankwright
