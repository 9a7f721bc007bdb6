#pragma once

#include <string>

#include "program.h"

namespace blankwright {

/// Runs the program in this process, in that folder, with what somebody types in a shell behind its name: words in
/// quotes are one, "> FILE" is where it writes. `lines`: what is typed then, for the bench.
ProgramRun typed_in_folder(const std::string& folder, const std::string& command, const std::string& lines = {});

}  // namespace blankwright
