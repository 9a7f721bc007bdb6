#pragma once

#include <optional>

#include "entries/blank_state.h"

// What was read off a scale, a rule or a caliper, as an entry says it.

namespace blankwright {

/// Its mass without tag and wire.
Weighing weighing_of(const Entry& entry);
SizeSeen size_of(const Entry& entry);
AxisSeen axis_of(const Entry& entry);

/// What the cut of a witness showed.
struct CutOpen {
  bool through = false;  ///< resin to the middle
  bool hard = false;     ///< to the middle
};
/// Is it from before these were told apart? Then it has one answer, `result`, which is that to both.
bool answers_as_before(const Entry& entry);
CutOpen cut_of(const Entry& entry);

bool is_above_0(const SizeSeen& seen);

/// Why an entry says nothing, whatever the blank's state: a mass or a length that is not above 0. None where it does.
std::optional<Refusal> says_nothing(const Entry& entry);

}  // namespace blankwright
