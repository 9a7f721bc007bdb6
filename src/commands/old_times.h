#pragma once

#include <set>
#include <vector>

#include "plan/shop/kept_plan.h"
#include "read/words.h"

namespace blankwright {

/// The sheets that show what moved since they were printed: days and how long what runs by itself takes stand in the
/// routing, the day on which it begins on a card, that of a bath on its bottles' labels.
std::set<SheetKind> sheets_with_old_times(const std::vector<MovedOperation>& moved, const PlacedTimes& times,
                                          const Zone& zone);

}  // namespace blankwright
