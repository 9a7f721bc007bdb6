#pragma once

#include <string>
#include <vector>

#include "desk.h"
#include "program.h"

namespace simulated {

/// Which of the entries that were answered do not stand in the register any more, or otherwise than they were
/// entered: ID, hour and mass. Read from its export, each a sentence.
std::vector<std::string> lost_entries(Program& program, const std::vector<Entry>& taken, Moment now);

}  // namespace simulated
