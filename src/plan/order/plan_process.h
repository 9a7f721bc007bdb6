#pragma once

#include "entries/record.h"
#include "plan/order/order_plan.h"

namespace blankwright {

/// Plans drying, vacuum, uptake and cure of an order whose blank is known; figures and working go to the plan. Once
/// blanks of the order were weighed dry, their mean mass and size take the place of the nominal blank's. A
/// blank that is given squared has been through all this, and has none of it. False when something is wrong, which
/// has been said.
bool plan_process(OrderPlan& plan, const Order& order, const Shop& shop, const Record& record, Diagnostics& out);

}  // namespace blankwright
