#pragma once

#include <optional>
#include <string>
#include <vector>

#include "entries/blank_state.h"

namespace blankwright {

/// The orders that a blank was meant for when what cannot be undone was done to it, the last time of each: a promise
/// to another order changes nothing of that.
struct MadeFor {
  struct Step {
    std::string order;
    Instant at;
  };
  std::optional<Step> bathed, bored, stud_set;
};

/// By a blank's entries, up to the last one that its state knows.
MadeFor made_for(const std::vector<Entry>& entries, const BlankState& state);

}  // namespace blankwright
