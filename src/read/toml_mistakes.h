#pragma once

#include <string>
#include <string_view>

#include "diagnose/diagnostics.h"

namespace blankwright {

/// Tells why a text is no TOML: in our words where the line in which the parser stopped, or one before it, shows a
/// mistake that people make who write TOML for the first time, and then of all lines that show the same one; else in
/// the parser's words. `line` and `column` count from 1.
void say_not_toml(const Source& source, int line, int column, std::string_view parser_says, Diagnostics& out);

}  // namespace blankwright
