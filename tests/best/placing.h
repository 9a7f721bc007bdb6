#pragma once

#include <optional>
#include <vector>

#include "line.h"
#include "task.h"

namespace best_plans {

/// Who and what there is, and when not.
struct Lines {
  std::vector<Line> people, places;
  Line attended;  ///< nobody is in the shop
};

struct Placed {
  int start = 0, end = 0;
};

/// When all tasks of a block are, each as early as the rules allow, none before `from`; what they take is taken.
/// None where there is no such time within the horizon.
struct PlacedBlock {
  std::vector<Placed> tasks;
  std::vector<std::vector<Placed>> tails;
};
std::optional<PlacedBlock> place(const Block& block, int from, Lines& lines);

/// Places the blocks of a problem's chains: each time that a chain is named its next one, behind what that waits for;
/// then what is left. None where something finds no time.
std::optional<Result> place_all(const Problem& problem, const Lines& lines, const std::vector<std::size_t>& order);

}  // namespace best_plans
