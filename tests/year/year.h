#pragma once

#include "kept_results.h"

namespace simulated {

struct Plan : KeptSeeds {
  int runs = 4;                ///< of orders that each shop makes at least,
  int days = 0;                ///< for so long at least,
  int days_between = 0;        ///< from one batch's beginning to the next one's at least
  int blanks = 0;              ///< of so many blanks at least
  int provoked_at_least = 1;   ///< each unsafe answer, over all seeds
  bool by_every_kind = false;  ///< and by every kind of shop that can give it
};

/// Lives through all seeds, one shop each, and reports. False where a verdict or a sheet was wrong, where too much
/// could not be judged, or where an unsafe answer was not provoked often enough.
bool live_and_report(const Plan& plan);

}  // namespace simulated
