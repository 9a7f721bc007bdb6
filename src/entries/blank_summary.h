#pragma once

#include <optional>
#include <string>

#include "entries/blank_state.h"

namespace blankwright {

/// An axis against the blank's centre line: towards face 1 and face 2 at the seat, and its slopes along the blank
/// (away from the seat, into the wood).
struct AxisOffset {
  Length offset_1, offset_2;
  double slope_1 = 0, slope_2 = 0;
  bool operator==(const AxisOffset&) const = default;
};

/// What was measured with a rod, as an axis inside the blank. The rod leans outside, so inside it goes the other way.
AxisOffset axis_offset(const AxisSeen& seen);

/// The part of a blank's state that questions about the whole shop need: a row a blank.
struct BlankSummary {
  std::optional<BlankId> id;
  std::string order, promised;
  bool witness = false;
  Stage stage = Stage::begun;
  std::string bath, load, board, reason;
  std::optional<Graded> verdict;
  std::optional<Outcome> result;
  bool begun = false;                   ///< wood was sawn for it
  std::string drying;                   ///< the load in which it dries, while it does
  std::optional<Mass> dry, wet, cured;  ///< the last of each
  std::optional<AxisOffset> axis;       ///< of the stud once it was measured, else of the bore
  std::optional<Force> pulled;
  Instant last_at{};                    ///< when something was done with it last, or else when it was issued
  bool operator==(const BlankSummary&) const = default;
};
BlankSummary summary_of(const BlankState& state);

/// A summary and what the order's job said of the wood, as it was last compiled.
struct KnownBlank {
  BlankSummary blank;
  std::string species, condition, dye;
};

}  // namespace blankwright
