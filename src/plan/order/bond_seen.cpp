#include "plan/order/bond_seen.h"

#include <numbers>

namespace blankwright {

BondSeen bond_seen(Force pulled, const Order& order, const OrderPlan& plan) {
  const auto over = [&](Length diameter) { return pulled / (std::numbers::pi * diameter * plan.stud.embedded); };
  return {1, over(order.stud.thread.value.major), over(plan.bore.drill.diameter)};
}

BondSeen with_one_more(const std::optional<BondSeen>& before, const BondSeen& seen) {
  if (!before) return seen;
  BondSeen weakest = seen.shear < before->shear ? seen : *before;
  weakest.pulled = before->pulled + seen.pulled;
  return weakest;
}

}  // namespace blankwright
