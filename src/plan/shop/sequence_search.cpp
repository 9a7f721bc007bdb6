#include "plan/shop/sequence_search.h"

#include <algorithm>
#include <set>

namespace blankwright {
namespace {

constexpr std::size_t steps_in_vain = 1000;  ///< no source: more find hardly anything
constexpr std::size_t blocks_between = 6;    ///< placements that are kept: copying one takes as long as placing a few

}  // namespace

Punctuality punctuality_of(const Placement& placed, const Dues& dues) {
  using std::chrono::ceil;
  using std::chrono::minutes;
  Punctuality all;
  all.without_room = static_cast<int>(std::ranges::count(placed.not_placed, true));
  for (std::size_t i = 0; i < placed.finish.size(); ++i) {
    const Instant finish = placed.finish[i];
    if (dues.of[i] && finish > *dues.of[i]) all.late += ceil<minutes>(finish - *dues.of[i]);
    all.finish = std::max(all.finish, ceil<minutes>(finish - dues.now));
  }
  for (const Placement::OfChain& chain : placed.chains) all.all += ceil<minutes>(chain.ready - dues.now);
  all.dark_first = placed.dark_first;
  return all;
}

Placement SequenceSearch::placed(const Sequence& sequence) {
  Placement now = begin_;
  for (const std::size_t chain : sequence) placer_.place_next(chain, now);
  return now;
}

bool SequenceSearch::is_in_one_line(const Sequence& sequence) const {
  std::size_t begin = 0;  // of what waits for nothing that is in the sequence
  const auto has = [&](std::size_t chain) { return std::ranges::find(sequence, chain) != sequence.end(); };
  std::set<std::size_t> seen;
  for (const std::size_t chain : sequence) {
    if (!seen.insert(chain).second) continue;
    const bool waits = std::ranges::any_of(placer_.chains()[chain].behind, has);
    if (!waits && ++begin > 1) return false;
  }
  return seen.size() <= 2;
}

void SequenceSearch::keep_up_to(std::size_t first) {
  const std::size_t stretches = first / blocks_between;
  if (kept_.size() > stretches) kept_.erase(kept_.begin() + static_cast<std::ptrdiff_t>(stretches), kept_.end());
}

Punctuality SequenceSearch::of_moved(const Moved& moved, const Sequence& now) {
  const std::size_t common = moved.first / blocks_between;  // so many whole stretches are as they were
  const std::size_t begin = std::min(common, kept_.size());
  Placement placement = begin == 0 ? begin_ : kept_.at(begin - 1);
  for (std::size_t i = begin * blocks_between; i < now.size(); ++i) {
    placer_.place_next(moved.sequence[i], placement);
    const std::size_t stretch = (i + 1) / blocks_between;
    if ((i + 1) % blocks_between == 0 && stretch <= common && kept_.size() == stretch - 1) kept_.push_back(placement);
  }
  return punctuality_of(placement, dues_);
}

Punctuality SequenceSearch::least(const Sequence& sequence) {
  Punctuality least = punctuality_of(begin_, dues_);
  for (std::size_t order = 0; order < dues_.of.size(); ++order) {
    Placement alone = begin_;
    const auto is_its = [&](std::size_t chain) {
      return std::ranges::find(placer_.chains()[chain].orders, order) != placer_.chains()[chain].orders.end();
    };
    for (const std::size_t chain : sequence) {
      if (is_its(chain)) placer_.place_next(chain, alone);
    }
    const Instant finish = alone.finish.at(order);
    least.finish = std::max(least.finish, std::chrono::ceil<std::chrono::minutes>(finish - dues_.now));
    const auto& due = dues_.of.at(order);
    if (due && finish > *due && begin_.finish.at(order) <= *due)
      least.late += std::chrono::ceil<std::chrono::minutes>(finish - *due);
  }
  return least;
}

SequenceSearch::Found SequenceSearch::best(Found from, std::size_t most_placed, const Punctuality& least) {
  constexpr std::size_t steps_before = 40;  // no source
  if (is_in_one_line(from.sequence)) return from;
  Found best = from;
  std::vector<Punctuality> before(steps_before, from.punctual);
  kept_.clear();
  const std::size_t until = placer_.placed() + most_placed;
  std::size_t last = 0;  // step that found something better
  const auto is_least = [&] {
    return best.punctual.late <= least.late && best.punctual.dark_first == 0 && best.punctual.finish <= least.finish;
  };
  for (std::size_t step = 0; !is_least() && step < last + steps_in_vain && placer_.placed() < until; ++step) {
    Moved next = moved(from.sequence, draw_);
    const Punctuality punctual = of_moved(next, from.sequence);
    Punctuality& then = before[step % steps_before];
    if (punctual <= from.punctual || punctual <= then) {
      keep_up_to(next.first);
      from = {std::move(next.sequence), punctual};
      if (punctual < best.punctual) {
        best = from;
        last = step;
      }
    }
    then = std::min(then, from.punctual);
  }
  return best;
}

SequenceSearch::Found SequenceSearch::less_late(Found from, std::size_t most_placed) {
  if (is_in_one_line(from.sequence)) return from;
  kept_.clear();
  const auto lateness = [](const Punctuality& punctual) { return std::pair{punctual.without_room, punctual.late}; };
  const std::size_t until = placer_.placed() + most_placed;
  const auto any_late = [&] { return from.punctual.late > std::chrono::minutes{0}; };
  std::size_t last = 0;
  for (std::size_t step = 0; any_late() && step < last + steps_in_vain && placer_.placed() < until; ++step) {
    Moved next = moved(from.sequence, draw_);
    const Punctuality punctual = of_moved(next, from.sequence);
    if (lateness(punctual) >= lateness(from.punctual)) continue;
    keep_up_to(next.first);
    from = {std::move(next.sequence), punctual};
    last = step;
  }
  return from;
}

}  // namespace blankwright
