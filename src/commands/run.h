#pragma once

#include <string>
#include <vector>

#include "commands/surroundings.h"

namespace blankwright {

/// Runs the program with its arguments, the program's name first. Whatever goes wrong ends in a status and words.
Exit run(const std::vector<std::string>& arguments, Surroundings& around);

}  // namespace blankwright
