#pragma once

#include <string>
#include <vector>

#include "commands/compile_steps.h"

namespace blankwright {

/// For each order of a plan, what moved since it was printed last, what moved it, and which of the printed pages are
/// not right any more; in lines for a terminal, empty where nothing moved or nothing was printed. To be asked before
/// the orders are issued anew.
std::vector<std::string> what_moved(const ReadRun& read, const PlannedTogether& planned, const Surroundings& around);

}  // namespace blankwright
