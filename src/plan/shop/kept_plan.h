#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/shop/shop_plan.h"

namespace blankwright {

/// What of an order's operation, or of one of its runs, was still to come when it was planned.
struct KeptOperation {
  std::string name;
  Interval at;
  int blanks = 0;
};

/// An order's plan in lines, a run each, to be kept beside what was printed of it: what was to come or ran then, and
/// behind them the oven that it was to be cured in and the turns in which it was placed.
std::string kept_plan(const PlacedTimes& times);
/// The oven in which an order was planned to be cured, the first where there were several; empty where none was kept.
std::string read_kept_oven(std::string_view lines);
/// The turns of an order's baths and of what it does by itself; none where they were not kept.
struct KeptTurns {
  std::vector<std::vector<std::size_t>> baths;
  std::vector<std::vector<std::size_t>> own;
};
KeptTurns read_kept_turns(std::string_view lines);
/// Reads its runs back; earlier versions kept an operation as one. A line that is none of ours is passed over.
std::vector<KeptOperation> read_kept_runs(std::string_view lines);
/// The same, each operation from the first start to the last end of its runs.
std::vector<KeptOperation> read_kept_plan(std::string_view lines);

/// An operation that lies elsewhere than it was planned; one that is new, or that the routing has no more.
struct MovedOperation {
  std::string name;
  std::optional<Interval> before, now;
};
/// What moved since a plan was kept, in the order of the routing, what is gone last; by a minute at least, as clocks
/// show it. What is over by now did not move; where a part of its blanks is done since, the end alone is compared.
std::vector<MovedOperation> moved_since(const std::vector<KeptOperation>& before, const PlacedTimes& now);

}  // namespace blankwright
