#pragma once

#include <optional>

#include "diagnose/saying.h"
#include "entries/process_state.h"
#include "plan/gate/verdict.h"
#include "plan/order/order_plan.h"

namespace blankwright {

/// What a vacuum gauge that shows so much has to read at least for the target, below the air's pressure; none where
/// it does. Gauges are read to 1 kPa (common practice, no source).
std::optional<Stress> gauge_short_of(const GaugePressure& gauge, const OrderPlan& plan);

enum class ReleaseAnswer {
  no_target,    ///< nobody entered that the target was reached
  gauge_short,  ///< or by a gauge that was not there yet
  no_end,       ///< nobody saw the bubbling end
  held_short,   ///< not held as long as planned
  release       ///< nothing speaks against it
};
Verdict verdict_of(ReleaseAnswer answer);

/// May the vacuum over a bath be released?
struct ReleaseGate {
  ReleaseAnswer answer = ReleaseAnswer::release;
  std::optional<GaugePressure> read, asked;  ///< of a gauge that was short
  std::optional<Duration> held, planned;     ///< of a vacuum that was
  bool holds() const { return verdict_of(answer) != Verdict::goes_on; }
};

/// Judges a release at a moment by what was entered of the bath until then and by the plan of a blank in it. Moments
/// are entered to the minute, so one is let pass. None where no vacuum was planned.
std::optional<ReleaseGate> release_gate(const BathState& bath, const OrderPlan& plan, Instant at);

/// In words, without HOLD: "its vacuum was held 20 min, and at least 35 min was planned".
Saying says_of(const ReleaseGate& gate, UnitSystem units);

}  // namespace blankwright
