#include "line.h"

#include <algorithm>
#include <limits>

namespace best_plans {

std::size_t Line::first_ending_after(int at) const {
  const auto found = std::ranges::upper_bound(taken_, at, {}, &std::pair<int, int>::second);
  return static_cast<std::size_t>(found - taken_.begin());
}

void Line::take(int from, int to) {
  if (from >= to) return;
  auto first = std::ranges::lower_bound(taken_, from, {}, &std::pair<int, int>::second);
  auto last = first;
  for (; last != taken_.end() && last->first <= to; ++last) {
    from = std::min(from, last->first);
    to = std::max(to, last->second);
  }
  if (first == last) {
    taken_.insert(first, {from, to});
  } else {
    *first = {from, to};
    taken_.erase(first + 1, last);
  }
}

int Line::next_free(int from, int length) const {
  if (length == 0) return from;
  for (std::size_t i = first_ending_after(from); i < taken_.size() && taken_[i].first < from + length; ++i)
    from = taken_[i].second;
  return from;
}

int Line::end_of_conflict(int from, int to) const {
  const std::size_t i = first_ending_after(from);
  return i < taken_.size() && taken_[i].first < to ? taken_[i].second : -1;
}

int Line::next_taken(int from) const {
  const std::size_t i = first_ending_after(from);
  return i < taken_.size() ? std::max(from, taken_[i].first) : std::numeric_limits<int>::max();
}

int Line::last_taken(int before) const {
  const auto found = std::ranges::lower_bound(taken_, before, {}, &std::pair<int, int>::first);
  return found == taken_.begin() ? 0 : std::min(before, std::prev(found)->second);
}

}  // namespace best_plans
