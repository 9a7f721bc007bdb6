#pragma once

#include "plan/routing/operations.h"
#include "read/order.h"

namespace blankwright {

/// Warns where the shop's routing lacks an operation that takes the plan's time for what is done to a treated order,
/// or for the cooling behind its drying: the calendar leaves that out, and ends days too soon.
void judge_routing(const PlannedDurations& planned, const Order& order, const Shop& shop, Diagnostics& out);

}  // namespace blankwright
