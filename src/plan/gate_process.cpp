#include "plan/gate_process.h"

#include <fmt/format.h>

#include <algorithm>

namespace blankwright {
namespace {

Duration between(Instant from, Instant to) { return static_cast<double>((to - from).count()) * second; }

/// Moments are entered to the minute, some before and some after what they tell of.
constexpr Duration slack = 1 * minute;

}  // namespace

std::string against_release(const BathState& bath, const OrderPlan& plan, Instant at) {
  if (!plan.process.vacuum) return {};
  if (!bath.target_reached) return "nobody entered that it reached its vacuum";
  if (!bath.bubbling_ended) return "nobody entered that the bubbling ended";
  const Duration held = between(*bath.target_reached, at), planned = plan.process.vacuum->hold;
  if (held + slack >= planned) return {};
  return fmt::format("its vacuum was held {}, and at least {} was planned", text(held), text(planned));
}

std::string against_coming_out(const BathState& bath, const OrderPlan& plan, Instant at) {
  if (!plan.process.vacuum) return {};
  if (!bath.released) return "nobody entered that its vacuum was released";
  const Vacuum& planned = *plan.process.vacuum;
  const Duration soaked = between(*bath.released, at);
  const Duration least = bath.target_reached && planned.hold > Duration{}
                             ? planned.least_soak / planned.hold * between(*bath.target_reached, *bath.released)
                             : planned.least_soak;
  if (soaked + slack >= least) return {};
  return fmt::format("it soaked {} since the release, and should have {}", text(soaked), text(least));
}

std::string against_unloading(const LoadState& load, const OrderPlan& plan, UnitSystem units, Instant at) {
  if (!plan.process.cure || !plan.process.cure->core) return {};
  const Temperature core = *plan.process.cure->core;
  const auto there = std::ranges::find_if(load.core, [&](const auto& seen) { return seen.second >= core; });
  if (there == load.core.end()) {
    return fmt::format("no reading of its core at {} or more was entered", text(core, units));
  }
  const Duration held = between(there->first, at), planned = plan.process.cure->hold;
  if (held + slack >= planned) return {};
  return fmt::format("its core was there {}, and should have been {}", text(held), text(planned));
}

}  // namespace blankwright
