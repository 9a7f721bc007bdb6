#pragma once

#include <string>
#include <vector>

#include "desk.h"

namespace simulated {

/// The shortest list of commands after which the same is said of a blank: its own entries, those of its baths and
/// loads, and the cut witnesses among its companions. `compiled` are the commands that made its order. A clock stands
/// before each one.
std::vector<std::string> replay(const std::vector<std::string>& compiled, const std::vector<Entry>& entries,
                                const std::string& blank, Moment asked);

}  // namespace simulated
