#pragma once

#include <vector>

#include "write/manual.h"

namespace blankwright {

/// The pages of the manual: their texts (src/install/manual), and in them tables of the program's own lists.
const std::vector<ManualPage>& manual_pages();

}  // namespace blankwright
