#include "placing.h"

#include <algorithm>

namespace best_plans {
namespace {

constexpr int horizon = 200 * 24 * 60;

/// Work that pauses: the earliest that neither begins nor ends before the bounds, in parts that are long enough.
std::optional<Placed> place_work(const Task& task, int from, int end_from, const Line& person) {
  if (task.length == 0) {
    const int at = person.next_free(std::max(from, end_from), 1);
    return Placed{at, at};
  }
  const int least = std::min(task.least_part, task.length);
  for (int start = person.next_free(from, least); start < horizon; start = person.next_free(start + 1, least)) {
    int left = task.length, at = start;
    while (true) {
      const int until = person.next_taken(at);
      const int part = std::min(left, until - at);
      left -= part;
      at += part;
      if (left == 0) {
        if (part < least) break;  // begins later, so that more is left for the last part
        if (at < end_from || (task.most && at - start > std::max(*task.most, task.length))) break;
        return Placed{start, at};
      }
      at = person.next_free(at, std::max(least, 1));
      if (at >= horizon) return std::nullopt;
    }
  }
  return std::nullopt;
}

/// What goes by the clock.
std::optional<Placed> place_by_clock(const Task& task, int length, int from, int end_from, const Lines& lines) {
  const Line& person = lines.people.at(task.who);
  for (int start = from; start < horizon;) {
    int begin = person.next_free(start, task.at_start);
    if (!task.alone) {
      const int there = lines.attended.next_free(begin, std::max(length, 1));
      if (there > begin) {
        start = there;
        continue;
      }
    }
    const int end = person.next_free(std::max(begin + length, end_from) - task.at_end, task.at_end) + task.at_end;
    if (task.most && end - begin > std::max(*task.most, length)) {
      start = end - std::max(*task.most, length);
      continue;
    }
    if (!task.alone) {
      const int closes = lines.attended.next_taken(begin);
      if (end > closes) {
        start = lines.attended.next_free(closes, 1);
        continue;
      }
    }
    start = -1;
    for (const std::size_t place : task.places)
      start = std::max(start, lines.places.at(place).end_of_conflict(begin, end));
    if (start < 0) return Placed{begin, end};
  }
  return std::nullopt;
}

/// Bounds that waits behind a task raise.
struct Bounds {
  int from = 0, end_from = 0;
};

int soak_length(const Task& soak, const Placed& vacuum) {
  return std::max(soak.length, ((vacuum.end - vacuum.start - soak.pump_down) * soak.soak_percent + 99) / 100);
}

class BlockPlacer {
 public:
  BlockPlacer(const Block& block, int from, const Lines& lines)
      : block_{block}, lines_{lines}, bounds_(block.tasks.size(), Bounds{from, from}), placed_(block.tasks.size()) {}

  std::optional<PlacedBlock> all() {
    for (std::size_t i = 0; i < block_.tasks.size();) {
      const Task& task = block_.tasks[i];
      const auto found = place_one(i);
      if (!found) return std::nullopt;
      placed_[i] = *found;
      if (i > 0 && task.wait && found->start - placed_[i - 1].end > *task.wait) {
        bounds_[i - 1].end_from = found->start - *task.wait;
        --i;
        continue;
      }
      ++i;
    }
    return PlacedBlock{placed_, {}};
  }

  void end_later(std::size_t task, int end) { bounds_.at(task).end_from = std::max(bounds_.at(task).end_from, end); }

 private:
  std::optional<Placed> place_one(std::size_t i) {
    const Task& task = block_.tasks[i];
    Bounds bounds = bounds_[i];
    if (i > 0) bounds.from = std::max(bounds.from, placed_[i - 1].end);
    if (task.throughout) return place_work(task, bounds.from, bounds.end_from, lines_.people.at(task.who));
    if (task.soak_percent == 0) return place_by_clock(task, task.length, bounds.from, bounds.end_from, lines_);
    auto best = place_by_clock(task, soak_length(task, placed_[i - 1]), bounds.from, bounds.end_from, lines_);
    // A vacuum that begins later, and runs no longer than it has to, may let the soak end earlier.
    const Placed vacuum = placed_[i - 1];
    const Task& before = block_.tasks[i - 1];
    if (vacuum.end - vacuum.start <= before.length) return best;
    const auto later = place_by_clock(before, before.length, vacuum.end - before.length, vacuum.end, lines_);
    const bool in_time = later && (i < 2 || !before.wait || later->start - placed_[i - 2].end <= *before.wait);
    if (!in_time) return best;
    const auto soak =
        place_by_clock(task, soak_length(task, *later), std::max(bounds.from, later->end), bounds.end_from, lines_);
    if (soak && (!best || soak->end < best->end) && (!task.wait || soak->start - later->end <= *task.wait)) {
      placed_[i - 1] = *later;
      best = soak;
    }
    return best;
  }

  const Block& block_;
  const Lines& lines_;
  std::vector<Bounds> bounds_;
  std::vector<Placed> placed_;
};

/// The parts of work that pauses, as place_work() found it.
void take_parts(const Task& task, const Placed& placed, Line& person) {
  const int least = std::max(std::min(task.least_part, task.length), 1);
  for (int at = placed.start; at < placed.end; at = person.next_free(at, least)) {
    const int until = std::min(person.next_taken(at), placed.end);
    person.take(at, until);
    at = until;
  }
}

void take(const std::vector<Task>& tasks, const std::vector<Placed>& placed, Lines& lines) {
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    const Task& task = tasks[i];
    Line& person = lines.people.at(task.who);
    const auto [start, end] = placed[i];
    if (task.throughout) {
      take_parts(task, placed[i], person);
      continue;
    }
    person.take(start, start + task.at_start);
    person.take(end - task.at_end, end);
    // What soaks stays where it was under vacuum.
    for (const std::size_t place : task.places)
      lines.places.at(place).take(task.soak_percent > 0 ? placed[i - 1].end : start, end);
  }
}

/// Places what is tied to a block's tasks. False where some of it cannot begin in time: what it waits for ends later
/// then.
bool place_tails(const Block& block, PlacedBlock& placed, BlockPlacer& placer, Lines& lines) {
  bool in_time = true;
  for (std::size_t i = 0; i < block.tails.size(); ++i) {
    const Tail& tail = block.tails[i];
    if (tail.tasks.empty()) continue;
    const int ready = placed.tasks.at(tail.after).end;
    const Block alone{tail.tasks};
    auto behind = BlockPlacer{alone, ready, lines}.all();
    if (!behind) return false;
    placed.tails[i] = std::move(behind->tasks);
    const int latest = placed.tails[i].front().start - *tail.tasks.front().wait;
    if (latest > ready) {
      placer.end_later(tail.after, latest);
      in_time = false;
    }
    take(tail.tasks, placed.tails[i], lines);
  }
  return in_time;
}

/// Places all of a problem, block by block.
class AllPlacer {
 public:
  AllPlacer(const Problem& problem, const Lines& lines)
      : problem_{problem}, lines_{lines}, ready_(problem.chains.size(), 0), next_(problem.chains.size(), 0) {}

  bool place_next(std::size_t chain) {
    const Chain& own = problem_.chains[chain];
    if (next_[chain] == own.blocks.size()) return true;
    if (next_[chain] == 0) {
      for (const std::size_t before : own.behind) {
        if (!place_rest(before)) return false;
      }
    }
    const Block& block = own.blocks[next_[chain]++];
    const auto placed = place(block, ready_[chain], lines_);
    if (!placed) return false;
    for (std::size_t i = 0; i < block.tails.size(); ++i) {
      const Tail& tail = block.tails[i];
      const int end = tail.tasks.empty() ? placed->tasks.at(tail.after).end : placed->tails[i].back().end;
      ready_[tail.goes_on] = std::max(ready_[tail.goes_on], end);
    }
    ready_[chain] = placed->tasks.back().end;
    return true;
  }

  bool place_rest(std::size_t chain) {
    while (next_[chain] < problem_.chains[chain].blocks.size()) {
      if (!place_next(chain)) return false;
    }
    return true;
  }

  Result result() const {
    std::vector<int> ends(problem_.due.size(), 0);
    for (std::size_t i = 0; i < ready_.size(); ++i) {
      if (const auto order = problem_.chains[i].order) ends[*order] = std::max(ends[*order], ready_[i]);
    }
    Result all;
    for (std::size_t i = 0; i < ends.size(); ++i) {
      all.finish = std::max(all.finish, ends[i]);
      if (problem_.due[i]) all.late += std::max(0, ends[i] - *problem_.due[i]);
    }
    return all;
  }

 private:
  const Problem& problem_;
  Lines lines_;
  std::vector<int> ready_;
  std::vector<std::size_t> next_;
};

}  // namespace

std::optional<PlacedBlock> place(const Block& block, int from, Lines& lines) {
  BlockPlacer placer{block, from, lines};
  const bool is_tied = std::ranges::any_of(block.tails, [](const Tail& tail) { return !tail.tasks.empty(); });
  constexpr int most_tries = 60;
  for (int tries = 0; tries < most_tries; ++tries) {
    auto placed = placer.all();
    if (!placed) return std::nullopt;
    placed->tails.resize(block.tails.size());
    if (!is_tied) {
      take(block.tasks, placed->tasks, lines);
      return placed;
    }
    Lines now = lines;
    take(block.tasks, placed->tasks, now);
    if (place_tails(block, *placed, placer, now)) {
      lines = std::move(now);
      return placed;
    }
  }
  return std::nullopt;
}

std::optional<Result> place_all(const Problem& problem, const Lines& lines, const std::vector<std::size_t>& order) {
  AllPlacer placer{problem, lines};
  for (const std::size_t chain : order) {
    if (!placer.place_next(chain)) return std::nullopt;
  }
  for (std::size_t chain = 0; chain < problem.chains.size(); ++chain) {
    if (!placer.place_rest(chain)) return std::nullopt;
  }
  return placer.result();
}

}  // namespace best_plans
