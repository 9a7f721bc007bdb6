#include "plan/gate/gate_process.h"

#include <fmt/format.h>

#include "measure/elapsed.h"

namespace blankwright {
namespace {

/// Moments are entered to the minute, some before and some after what they tell of.
constexpr Duration slack = 1 * minute;

}  // namespace

std::optional<Stress> gauge_short_of(const GaugePressure& gauge, const OrderPlan& plan) {
  constexpr Stress read_to = 1 * kilopascal;
  if (!plan.process.vacuum) return std::nullopt;
  const Stress reading = GaugePressure{} - gauge, asked = plan.process.vacuum->reading;
  return reading + read_to < asked ? std::optional{asked} : std::nullopt;
}

std::string against_release(const BathState& bath, const OrderPlan& plan, UnitSystem units, Instant at) {
  if (!plan.process.vacuum) return {};
  if (!bath.target_reached) return "nobody entered that it reached its vacuum";
  if (bath.gauge) {
    if (const auto asked = gauge_short_of(*bath.gauge, plan)) {
      return fmt::format("its gauge read {}, and {} is asked for; if it got there, enter when, and what it read then",
                         text(*bath.gauge, units), text(GaugePressure{} - *asked, units, Round::up));
    }
  }
  if (!bath.bubbling_ended) return "nobody entered that the bubbling ended";
  const Duration held = between(*bath.target_reached, at), planned = plan.process.vacuum->hold;
  if (held + slack >= planned) return {};
  return fmt::format("its vacuum was held {}, and at least {} was planned", text(held), text(planned));
}

}  // namespace blankwright
