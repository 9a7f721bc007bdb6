#pragma once

#include <string>
#include <vector>

#include "plan/wood/cutting.h"
#include "sheet/frame/flow.h"

namespace blankwright {

Word kind_word(Cut::Kind kind);
/// "Crosscut, strip 2".
std::string kind_text(const WordTable& words, const Cut& cut);

/// Cuts of one board that are made with fence or stop at one place: as far from the end, edge or face that the cut
/// before has left.
struct StopSetting {
  std::size_t board = 0;
  Cut::Kind kind = Cut::Kind::rip;
  Length stop{};
  std::vector<const Cut*> cuts;  ///< in their order
};

/// In the order of their first cuts.
std::vector<StopSetting> stop_settings(const CuttingPlan& plan);

/// A table with a row for each setting: its cuts by their numbers, where the stop is set, where they lie on the
/// board.
void put_cuts(Flow& flow, const CuttingPlan& plan, const Dossier& dossier);

}  // namespace blankwright
