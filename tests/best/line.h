#pragma once

#include <utility>
#include <vector>

namespace best_plans {

/// When something is not to be had: apart, in order, in minutes from the moment of the plan.
class Line {
 public:
  void take(int from, int to);
  /// From when on it is to be had for so long, at `from` or after.
  int next_free(int from, int length) const;
  /// When it is to be had again after what takes it at `from`, or will by `to`; -1 where nothing does.
  int end_of_conflict(int from, int to) const;
  /// When it is not to be had next, at `from` or after.
  int next_taken(int from) const;
  /// When it was not to be had last, at `before` or earlier: its end.
  int last_taken(int before) const;

 private:
  std::size_t first_ending_after(int at) const;
  std::vector<std::pair<int, int>> taken_;
};

}  // namespace best_plans
