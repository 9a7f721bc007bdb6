#include <algorithm>
#include <cmath>
#include <optional>
#include <random>
#include <vector>

#include <doctest/doctest.h>

#include "plan/routing/schedule.h"
#include "working_week.h"

using namespace blankwright;
using namespace std::chrono_literals;
using std::chrono::minutes;

namespace {

// --- An exhaustive search minute by minute, written without any of the code under test but the zone's clock. ---

struct Grid {
  Instant begin;
  std::vector<int> worked;  ///< minutes of working time before each minute

  std::size_t size() const { return worked.size() - 1; }
  std::size_t index(Instant instant) const { return static_cast<std::size_t>((instant - begin) / 1min); }
  std::size_t work(std::size_t from, std::size_t to) const {
    return static_cast<std::size_t>(worked.at(to) - worked.at(from));
  }
  bool unbroken(std::size_t from, std::size_t to) const { return work(from, to) == to - from; }
  bool works(std::size_t minute) const { return minute < size() && unbroken(minute, minute + 1); }
};

bool at_work(const WorkingTime& working, Instant instant) {
  const LocalTime local = local_time(working.zone, instant);
  const minutes clock = std::chrono::hours{local.hour} + minutes{local.minute};
  return std::ranges::find(working.days_off, local.date) == working.days_off.end() &&
         std::ranges::any_of(working.week.at(local.weekday),
                             [&](const WorkStretch& s) { return s.from <= clock && clock < s.to; });
}

Grid grid_of(const WorkingTime& working, Instant begin, int size) {
  Grid grid{begin, {0}};
  for (int i = 0; i < size; ++i)
    grid.worked.push_back(grid.worked.back() + (at_work(working, begin + minutes{i}) ? 1 : 0));
  return grid;
}

std::size_t in_minutes(Duration duration) { return static_cast<std::size_t>(std::lround(duration / minute)); }

/// How long the operation may last, as Operation's comments have it.
std::size_t most_minutes(const Operation& o, const Grid& grid) {
  if (o.hands_on != HandsOn::throughout && !o.may_run_long) return in_minutes(o.length);
  return o.longest ? in_minutes(*o.longest) : grid.size();
}

/// May it start at that minute?
bool may_start_at(const Operation& o, const Grid& grid, std::size_t start) {
  if (o.hands_on == HandsOn::throughout) return grid.works(start);
  const std::size_t loaded = start + in_minutes(o.hands_on_at_start);
  return (o.unattended || grid.works(start)) && loaded <= grid.size() && grid.unbroken(start, loaded);
}

/// May it then end at that one, which is neither too near for it nor too far?
bool may_end_at(const Operation& o, const Grid& grid, std::size_t start, std::size_t end) {
  for (const Interval& taken : o.taken) {
    if (grid.index(taken.from) < end && start < grid.index(taken.to)) return false;
  }
  if (o.hands_on == HandsOn::throughout) {
    const std::size_t length = in_minutes(o.length);
    return length == 0 ? end == start : grid.work(start, end) == length && grid.works(end - 1);
  }
  if (!o.unattended && !grid.unbroken(start, end)) return false;
  return o.hands_on == HandsOn::at_start || grid.unbroken(end - in_minutes(o.hands_on_at_end), end);
}

/// At which minutes an operation can end that can start at those.
std::vector<bool> ends(const Operation& o, const Grid& grid, const std::vector<bool>& may_start) {
  std::vector<bool> may_end(may_start.size(), false);
  for (std::size_t start = 0; start < may_start.size(); ++start) {
    if (!may_start.at(start) || !may_start_at(o, grid, start)) continue;
    const std::size_t last = std::min(grid.size(), start + most_minutes(o, grid));
    for (std::size_t end = start + in_minutes(o.length); end <= last; ++end) {
      if (!may_end.at(end) && may_end_at(o, grid, start, end)) may_end.at(end) = true;
    }
  }
  return may_end;
}

/// The earliest end of the routing within the grid, from all ways of placing its operations.
std::optional<Instant> earliest_of_all(const std::vector<Operation>& routing, const Grid& grid) {
  std::vector<bool> may_end = ends(routing.front(), grid, std::vector<bool>(grid.size() + 1, true));
  for (std::size_t i = 1; i < routing.size(); ++i) {
    const Operation& o = routing.at(i);
    std::vector<bool> may_start;
    std::size_t until = 0;
    for (std::size_t minute = 0; minute <= grid.size(); ++minute) {
      if (may_end.at(minute)) until = minute + (o.longest_wait ? in_minutes(*o.longest_wait) : grid.size()) + 1;
      may_start.push_back(minute < until);
    }
    may_end = ends(o, grid, may_start);
  }
  const auto first = std::ranges::find(may_end, true);
  if (first == may_end.end()) return std::nullopt;
  return grid.begin + minutes{first - may_end.begin()};
}

// --- Random routings. The modulus is taken by hand: the standard's distributions differ between libraries. ---

struct Dice {
  std::mt19937 engine;
  int below(int n) { return static_cast<int>(engine() % static_cast<unsigned>(n)); }
  bool once_in(int n) { return below(n) == 0; }
};

/// Its length is below `longest` minutes.
Operation random_operation(Dice& dice, int longest) {
  Operation o;
  const int length = dice.below(longest);
  o.length = length * minute;
  o.hands_on = static_cast<HandsOn>(dice.below(3));
  const int load = dice.below(std::min(length, 60) + 1);
  o.hands_on_at_start = load * minute;
  o.hands_on_at_end = dice.below(std::min(length - load, 60) + 1) * minute;
  o.unattended = !dice.once_in(4) || length > 240;
  o.may_run_long = dice.once_in(2);
  if (dice.once_in(3)) o.longest = (length + dice.below(longest)) * minute;
  if (dice.once_in(3)) o.longest_wait = dice.below(120) * minute;
  return o;
}

std::vector<Operation> random_routing(Dice& dice, int longest, int most_operations) {
  std::vector<Operation> routing;
  const int count = 1 + dice.below(most_operations);
  for (int i = 0; i < count; ++i) routing.push_back(random_operation(dice, longest));
  return routing;
}

/// Everything that Operation promises, looked at minute by minute where hands are on.
void check_rules(const std::vector<Operation>& routing, const OrderSchedule& planned, const WorkingTime& working) {
  REQUIRE(planned.operations.size() == routing.size());
  CHECK(planned.finish == planned.operations.back().end);
  const auto exactly = [](Duration d) { return minutes{std::lround(d / minute)}; };
  for (std::size_t i = 0; i < routing.size(); ++i) {
    CAPTURE(i);
    const Operation& o = routing.at(i);
    const PlannedOperation& p = planned.operations.at(i);
    if (i > 0) {
      const Instant before = planned.operations.at(i - 1).end;
      CHECK(before <= p.start);
      if (o.longest_wait) CHECK(p.start - before <= exactly(*o.longest_wait));
    }
    const bool pausing = o.hands_on == HandsOn::throughout;
    CHECK(p.end - p.start >= exactly(o.length));
    if (!pausing && !o.may_run_long) CHECK(p.end - p.start == exactly(o.length));
    if (o.longest && (pausing || o.may_run_long)) CHECK(p.end - p.start <= exactly(*o.longest));
    minutes hands_on{0};
    bool all_at_work = true;
    for (const Interval& part : p.hands_on()) {
      CHECK(p.start <= part.from);
      CHECK(part.to <= p.end);
      for (Instant t = part.from; t < part.to; t += 1min) all_at_work = all_at_work && at_work(working, t);
      hands_on += std::chrono::duration_cast<minutes>(part.to - part.from);
    }
    CHECK(all_at_work);
    const Duration at_ends =
        o.hands_on_at_start + (o.hands_on == HandsOn::at_both_ends ? o.hands_on_at_end : Duration{});
    CHECK(hands_on == exactly(pausing ? o.length : at_ends));
    if (!pausing && !o.unattended) {
      for (Instant t = p.start; t < p.end; t += 1min) all_at_work = all_at_work && at_work(working, t);
      CHECK(all_at_work);
    }
  }
}

}  // namespace

TEST_CASE("the earliest finish is that of an exhaustive search minute by minute over all ways to plan") {
  // Two and a half days around a clock change, with night work on that Sunday.
  WorkingTime working = weekdays_in("Europe/Berlin");
  working.week.at(5) = {{9h, 13h}};
  working.week.at(6) = {{0h, 6h}, {22h, 24h}};
  working.week.at(0).push_back({0h, 1h});
  const int size = 60 * 60;
  Dice dice{std::mt19937{20270328}};
  int finished = 0;
  for (int round = 0; round < 150; ++round) {
    CAPTURE(round);
    const Instant change = round % 2 == 0 ? at("2027-03-28T03:00:00+02:00") : at("2027-10-31T03:00:00+01:00");
    const Instant begin = change - dice.below(size) * 1min;
    const Grid grid = grid_of(working, begin, size);
    std::vector<Operation> routing = random_routing(dice, 300, 4);
    if (dice.once_in(3)) routing.back().taken = {{begin + 300min, begin + 301min + dice.below(1000) * 1min}};
    const auto planned = schedule(routing, WorkCalendar{working, begin}, begin);
    const auto best = earliest_of_all(routing, grid);
    const bool within_grid = planned && planned->finish <= begin + minutes{size};
    CHECK(within_grid == best.has_value());
    if (within_grid && best) {
      CHECK(planned->finish == *best);
      check_rules(routing, *planned, working);
      ++finished;
    }
  }
  CHECK(finished > 75);
}

TEST_CASE("a thousand routings keep every rule, come out alike twice, and meet their latest start to the minute") {
  WorkingTime working = weekdays_in("Europe/Berlin");
  working.week.at(5) = {{9h, 12h + 30min}};
  working.days_off = {2027y / 3 / 26, 2027y / 3 / 29};
  const Instant around = at("2027-03-22T00:00:00+01:00");
  const WorkCalendar calendar{working, around};
  Dice dice{std::mt19937{1000}};
  int planned_at_all = 0;
  for (int round = 0; round < 1000; ++round) {
    CAPTURE(round);
    const Instant begin = around + dice.below(14 * 24 * 60) * 1min;
    const std::vector<Operation> routing = random_routing(dice, 30 * 60, 7);
    const auto planned = schedule(routing, calendar, begin);
    if (!planned) continue;
    ++planned_at_all;
    CHECK(planned->operations.front().start >= begin);
    check_rules(routing, *planned, working);
    CHECK(schedule(routing, calendar, begin)->finish == planned->finish);

    const Instant due = end_of_work(working, (std::chrono::sys_days{date_of(working.zone, begin)} +
                                              std::chrono::days{dice.below(30)}))
                            .value();
    const Delivery delivered = delivery(routing, calendar, *planned, due);
    REQUIRE(delivered.latest_start.has_value());
    const auto last_chance = schedule(routing, calendar, *delivered.latest_start);
    REQUIRE(last_chance.has_value());
    CHECK(last_chance->operations.front().start == *delivered.latest_start);
    CHECK(last_chance->finish <= due);
    const auto too_late = schedule(routing, calendar, *delivered.latest_start + 1min);
    CHECK((!too_late || too_late->finish > due));
    CHECK((delivered.late_by > 0min) == (delivered.slack.value() < 0min));
  }
  CHECK(planned_at_all > 500);
}
