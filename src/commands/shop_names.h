#pragma once

#include <optional>
#include <string>

#include "entries/entry.h"
#include "read/shop.h"

namespace blankwright {

/// Puts the shop's own names of operation, vessel and oven in the place of what was typed, where the entry names
/// them: a name in any case, or a beginning that no other one has. Else says what may have been meant.
std::optional<std::string> name_from_shop(Entry& entry, const Shop& shop);

}  // namespace blankwright
