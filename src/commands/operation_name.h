#pragma once

#include <optional>
#include <string>

#include "entries/entry.h"
#include "read/shop.h"

namespace blankwright {

/// Puts the routing's own name of an operation in the place of what was typed, if the entry names one: the name in any
/// case, or a beginning that no other operation has. Else says what may have been meant.
std::optional<std::string> name_operation(Entry& entry, const Shop& shop);

}  // namespace blankwright
