#pragma once

#include "diagnose/place.h"
#include "entries/record.h"
#include "plan/order/order_plan.h"

namespace blankwright {

/// Plans one order. What does not work out is said in `out`; after an error there is no plan.
std::optional<OrderPlan> plan_order(const Order& order, const Shop& shop, const Record& record, Diagnostics& out);

/// How fast a blank of that swing may turn at most: D × n = 152,400 mm/min (6000 in/min), the lower end of what is
/// commonly advised, and no faster than the lathe's fastest spindle. Start slower; never above what lathe, chuck or
/// mandrel are rated for. Common practice, no source: quoted as D[in] × rpm = 6000 to 9000 among turners.
Worked<RotationalSpeed> speed_ceiling(Length swing, const Given<RotationalSpeed>& fastest);

}  // namespace blankwright
