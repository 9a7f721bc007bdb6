#pragma once

#include <vector>

#include "entries/blank_id.h"

namespace blankwright {

/// What a plan may know of the past: the part of the register that bears on one order, as of one entry.
struct Record {
  std::vector<BlankId> issued_to_order;  ///< in the order of issue; empty before the first compile
};

}  // namespace blankwright
