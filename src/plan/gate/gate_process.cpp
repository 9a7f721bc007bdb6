#include "plan/gate/gate_process.h"

#include "diagnose/says_gate.h"
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

Verdict verdict_of(ReleaseAnswer answer) {
  return answer == ReleaseAnswer::release ? Verdict::goes_on : Verdict::held;
}

std::optional<ReleaseGate> release_gate(const BathState& bath, const OrderPlan& plan, Instant at) {
  if (!plan.process.vacuum) return std::nullopt;
  ReleaseGate gate;
  if (!bath.target_reached) {
    gate.answer = ReleaseAnswer::no_target;
    return gate;
  }
  if (const auto asked = bath.gauge ? gauge_short_of(*bath.gauge, plan) : std::nullopt) {
    gate.answer = ReleaseAnswer::gauge_short;
    gate.read = bath.gauge;
    gate.asked = GaugePressure{} - *asked;
    return gate;
  }
  if (!bath.bubbling_ended) {
    gate.answer = ReleaseAnswer::no_end;
    return gate;
  }
  const Duration held = between(*bath.target_reached, at), planned = plan.process.vacuum->hold;
  if (held + slack >= planned) return gate;
  gate.answer = ReleaseAnswer::held_short;
  gate.held = held;
  gate.planned = planned;
  return gate;
}

Saying says_of(const ReleaseGate& gate, UnitSystem units) {
  switch (gate.answer) {
    case ReleaseAnswer::no_target:
      return say(says::release_no_target);
    case ReleaseAnswer::gauge_short:
      return say(says::release_gauge_short, printed(*gate.read, units), printed(*gate.asked, units, Round::up));
    case ReleaseAnswer::no_end:
      return say(says::release_no_end);
    case ReleaseAnswer::held_short:
      return say(says::release_held_short, printed(*gate.held), printed(*gate.planned));
    case ReleaseAnswer::release:
      return say(says::release_now);
  }
  return {};
}

}  // namespace blankwright
