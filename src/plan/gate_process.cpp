#include "plan/gate_process.h"

#include <fmt/format.h>

#include "measure/elapsed.h"

namespace blankwright {
namespace {

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

}  // namespace blankwright
