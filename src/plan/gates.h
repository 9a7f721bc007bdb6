#pragma once

#include <optional>
#include <string>
#include <vector>

#include "entries/blank_state.h"
#include "plan/order_plan.h"

namespace blankwright {

/// How a blank stands at a gate.
struct Judged {
  std::string gate;                    ///< "dry", "resin", "graded", "axis"
  bool holds = false;                  ///< it does not go on
  std::string words;                   ///< begin with HOLD where something is wrong, and not only missing
  std::vector<std::string> details{};  ///< a line each, for who wants to know more
  bool is_wrong() const { return words.starts_with("HOLD"); }
};

/// The gate at which a blank stands, by the plan of the order that it is meant for; none where there is none: in the
/// bath, in the oven, between gates, or at its end. `soaked`: from the vacuum's release to the end of its bath, where
/// that is known.
std::optional<Judged> judge_gate(const BlankState& blank, const OrderPlan& plan, const Shop& shop,
                                 std::optional<Duration> soaked, Instant now);

}  // namespace blankwright
