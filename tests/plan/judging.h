#pragma once

#include <string>
#include <vector>

#include "diagnose/diagnostics.h"

namespace blankwright {

/// What was said about a problem, first of all; none if nothing was.
const Diagnostic* found(const Diagnostics& said, Problem problem);

/// The same where something has to be said about it.
const Diagnostic& about(const Diagnostics& said, Problem problem);

/// The same where it has to be an error.
const Diagnostic& refused(const Diagnostics& said, Problem problem);

void keeps_silent(const Diagnostics& said);

/// What a mark stands under.
std::string marked(const Place& at);
inline std::string marked(const Diagnostic& said) { return marked(said.at); }

/// What stands in quotation marks in a hint, with them.
std::vector<std::string> to_paste(const Diagnostic& said);

}  // namespace blankwright
