#pragma once

#include <optional>
#include <string>

#include "entries/process_state.h"
#include "plan/order/order_plan.h"

namespace blankwright {

/// What a vacuum gauge that shows so much has to read at least for the target, below the air's pressure; none where it
/// does. Gauges are read to 1 kPa (common practice, no source).
std::optional<Stress> gauge_short_of(const GaugePressure& gauge, const OrderPlan& plan);

/// What speaks against a bath whose vacuum is released at that moment, by the plan of a blank in it: its target was
/// not entered as reached, or by a gauge that was not there yet, or not held as long as planned, or nobody saw the
/// bubbling end. Empty where nothing does.
std::string against_release(const BathState& bath, const OrderPlan& plan, UnitSystem units, Instant at);

}  // namespace blankwright
