#pragma once

#include <string>
#include <vector>

namespace blankwright {

/// What is wrong with a command line that could not be read, and what may have been meant: its command, or an option of
/// it. Empty where it is neither.
std::string misspelt(const std::vector<std::string>& arguments);

}  // namespace blankwright
