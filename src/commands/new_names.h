#pragma once

#include <span>
#include <string>
#include <vector>

#include "entries/entry.h"
#include "register/register.h"

namespace blankwright {

/// The baths and loads that entries name and the register does not know yet, each once: "bath B4: new". Asked before
/// the entries are added; a name that was mistyped is seen by it.
std::vector<std::string> new_names(Register& known, std::span<const Entry> entries);

}  // namespace blankwright
