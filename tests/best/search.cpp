#include "search.h"

#include <algorithm>
#include <cmath>

#include "../year/chance.h"

namespace best_plans {
namespace {

using Order = std::vector<std::size_t>;

/// A day late weighs as ten days' finish.
double cost(const Result& result) { return 10.0 * result.late + result.finish; }

Order moved(Order order, simulated::Chance& chance) {
  const int last = static_cast<int>(order.size()) - 1;
  const auto from = static_cast<std::size_t>(chance.whole(0, last));
  if (chance.yes(0.2)) {  // all that is left of a chain
    const std::size_t chain = order[from];
    const auto begin = order.begin() + static_cast<std::ptrdiff_t>(from);
    const auto kept = std::stable_partition(begin, order.end(), [&](std::size_t one) { return one != chain; });
    const std::vector<std::size_t> tail{kept, order.end()};
    order.erase(kept, order.end());
    const auto to = chance.whole(0, static_cast<int>(order.size()));
    order.insert(order.begin() + to, tail.begin(), tail.end());
    return order;
  }
  const std::size_t chain = order[from];
  order.erase(order.begin() + static_cast<std::ptrdiff_t>(from));
  const int near = chance.yes(0.5) ? 3 : last;
  const int to = std::clamp(static_cast<int>(from) + chance.whole(-near, near), 0, last);
  order.insert(order.begin() + to, chain);
  return order;
}

/// No order is finished earlier than by itself, and none is less late.
int least_late(const Problem& problem, const Lines& lines) {
  int late = 0;
  for (std::size_t own = 0; own < problem.due.size(); ++own) {
    Problem alone = problem;
    for (std::size_t i = 0; i < alone.due.size(); ++i) {
      if (i != own) alone.due[i].reset();
    }
    int least = 0;
    for (std::size_t chain = 0; chain < problem.chains.size(); ++chain) {
      if (problem.chains[chain].order != own) continue;
      if (const auto found = place_all(alone, lines, Order(problem.chains[chain].blocks.size(), chain)))
        least = std::max(least, found->late);
    }
    late += least;
  }
  return late;
}

}  // namespace

std::optional<Found> best_of(const Problem& problem, const Lines& lines, int placings, unsigned seed) {
  simulated::Chance chance{seed};
  Order now;
  for (std::size_t chain = 0; chain < problem.chains.size(); ++chain)
    now.insert(now.end(), problem.chains[chain].blocks.size(), chain);
  auto here = place_all(problem, lines, now);
  std::optional<Result> best = here;
  Order best_order = now;
  for (int i = 0; i < placings && now.size() > 1; ++i) {
    const double left = 1 - static_cast<double>(i % (placings / 4 + 1)) / (placings / 4 + 1);  // four times
    if (i % (placings / 4 + 1) == 0 && i > 0) {
      now = best_order;
      here = best;
    }
    const double heat = 600 * left * left + 0.5;
    Order next = moved(now, chance);
    const auto there = place_all(problem, lines, next);
    if (!there) continue;
    const double worse = here ? cost(*there) - cost(*here) : -1;
    if (worse > 0 && !chance.yes(std::exp(-worse / heat))) continue;
    now = std::move(next);
    here = there;
    if (best && *here >= *best) continue;
    best = here;
    best_order = now;
  }
  if (!best) return std::nullopt;
  return Found{*best, best->late <= least_late(problem, lines)};
}

}  // namespace best_plans
