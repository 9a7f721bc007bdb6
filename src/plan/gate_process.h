#pragma once

#include <string>

#include "entries/process_state.h"
#include "plan/order_plan.h"

namespace blankwright {

/// What speaks against a bath whose vacuum is released at that moment, by the plan of a blank in it: its target was
/// not entered as reached, or not held as long as planned, or nobody saw the bubbling end. Empty where nothing does.
std::string against_release(const BathState& bath, const OrderPlan& plan, Instant at);

}  // namespace blankwright
