#pragma once

#include "read/shop.h"

namespace blankwright {

/// Is the shop file's process consistent in itself? Said once for a run, before any order.
bool judge_shop(const Shop& shop, Diagnostics& out);

}  // namespace blankwright
