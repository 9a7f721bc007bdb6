#pragma once

#include "plan/shop/shop_plan.h"

namespace blankwright {

/// Tells which blanks wait longer for what is next than it lets them, by what was entered and by the plan. Such a
/// wait fails nothing: what is to be done with them is for people to say.
void tell_broken_waits(const OrderToMake& order, const PlacedTimes& times, const Zone& zone, Diagnostics& said);

/// Tells that something was entered of a time after the plan's moment: what is over then is planned no more.
void tell_later_entries(const OrderToMake& order, Instant now, const Zone& zone, Diagnostics& said);

}  // namespace blankwright
