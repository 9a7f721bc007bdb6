#pragma once

#include <string>

#include "entries/process_state.h"
#include "plan/order_plan.h"

namespace blankwright {

/// What speaks against a bath whose vacuum is released at that moment, by the plan of a blank in it: its target was
/// not entered as reached, or not held as long as planned, or nobody saw the bubbling end. Empty where nothing does.
std::string against_release(const BathState& bath, const OrderPlan& plan, Instant at);

/// What speaks against a blank that comes out of its bath then: no release, or a soak shorter than the shop's share
/// of the time from target to release (where that is not known, than the planned soak).
std::string against_coming_out(const BathState& bath, const OrderPlan& plan, Instant at);

/// What speaks against a load that comes out of the oven then: no reading of its core at the temperature that the
/// data sheet asks for, or a hold from the first such reading that is too short.
std::string against_unloading(const LoadState& load, const OrderPlan& plan, UnitSystem units, Instant at);

}  // namespace blankwright
