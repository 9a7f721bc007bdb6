#pragma once

#include "plan/process/vacuum.h"

namespace blankwright {

/// Can this pump reach that target at this altitude? Before vacuum(), which counts on it.
bool judge_vacuum(const Shop& shop, Diagnostics& out);

/// Free water that boils at the target in the room's warmth: wet wood bubbles, and foaming is no proof of air.
void judge_boiling(const Vacuum& vacuum, const Shop& shop, Diagnostics& out);

}  // namespace blankwright
