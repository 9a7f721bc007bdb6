#pragma once

#include "chains.h"

namespace calendar_rules {

/// The blanks of these plans that are not in the ledger yet: nothing was entered of them.
void begin_ledger(Ledger& ledger, const std::map<std::string, Plan>& plans);

/// How the work goes: by the plan, but so much later, and entered or not.
struct Pace {
  Instant until;            ///< it is now
  Minutes late{};           ///< everything was begun and ended so much later than planned
  double part_entered = 0;  ///< chance that what was done of interrupted work by now is entered piece by piece
  double lags = 0;          ///< chance that of an order's own operations nothing is entered
  double scrapped = 0;      ///< chance that a blank that lies about is scrapped by now
};

/// What a shop enters that works by the plan up to a moment: a table for `enter --csv`, and the same in the ledger.
std::string work_by_plan(Chance& chance, const Planned& planned, const std::vector<Chain>& chains, const Pace& pace,
                         Ledger& ledger);

}  // namespace calendar_rules
