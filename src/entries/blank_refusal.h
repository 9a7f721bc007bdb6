#pragma once

#include "entries/blank_state.h"
#include "measure/quantity_text.h"

namespace blankwright {

/// Why an entry of a blank cannot be, as it stands, with its figures in these units; none where it can.
std::optional<Refusal> refusal(const BlankState& state, const Entry& entry, UnitSystem units);

}  // namespace blankwright
