#pragma once

#include <functional>
#include <string>

#include "entries/blank_state.h"
#include "measure/quantity_text.h"

namespace blankwright {

/// What a refusal goes by besides the blank's own entries.
struct RefusedBy {
  UnitSystem units = UnitSystem::metric;  ///< of its figures
  /// Are an order's blanks bathed and cured? Those of an order that has no treatment go from the saw to the turner.
  /// Not asked where it is empty: then all are.
  std::function<bool(const std::string& order)> is_treated{};
};

/// Why an entry of a blank cannot be, as it stands; none where it can. What was in a bath is cured before it is
/// worked, whatever it is meant for now.
std::optional<Refusal> refusal(const BlankState& state, const Entry& entry, const RefusedBy& by);

}  // namespace blankwright
