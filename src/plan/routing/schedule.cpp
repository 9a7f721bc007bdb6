#include "plan/routing/schedule.h"

#include <algorithm>

#include "diagnose/failure.h"
#include "diagnose/says_shop.h"
#include "measure/elapsed.h"
#include "measure/largest_that.h"
#include "measure/quantity_text.h"

namespace blankwright {

using std::chrono::ceil;
using std::chrono::minutes;

namespace {

/// Longer than any calendar, short enough to be added to any instant.
constexpr minutes for_ever = 10 * planning_horizon;

minutes whole_minutes(Duration duration, Round round) {
  BW_EXPECT(duration >= Duration{});
  const double most = static_cast<double>(for_ever.count());
  return minutes{static_cast<minutes::rep>(std::min(most, rounded(duration / minute, 1.0, round)))};
}

/// An operation's rules in whole minutes.
struct Rules {
  bool pausing = false;
  bool attended = false;
  minutes length{}, most{};
  minutes at_start{}, at_end{};
  std::optional<minutes> wait;
  std::optional<Instant> earliest;
  std::optional<Operation::Share> lasts;
  std::span<const Interval> taken;
  const WorkCalendar* free = nullptr;
};

Rules rules_of(const Operation& operation) {
  Rules rules;
  rules.pausing = operation.hands_on == HandsOn::throughout;
  rules.attended = !rules.pausing && !operation.unattended && !operation.begun;
  if (!rules.pausing) rules.at_start = whole_minutes(operation.hands_on_at_start, Round::up);
  if (operation.hands_on == HandsOn::at_both_ends) {
    rules.at_end = whole_minutes(operation.hands_on_at_end, Round::up);
  }
  // Where rounding alone would make hands-on time or length exceed their bound, the bound gives way by that minute.
  rules.length = std::max(whole_minutes(operation.length, Round::up), rules.at_start + rules.at_end);
  if (!rules.pausing && !operation.may_run_long) {
    rules.most = rules.length;
  } else if (operation.longest) {
    rules.most = std::max(whole_minutes(*operation.longest, Round::down), rules.length);
  } else {
    rules.most = for_ever;
  }
  if (operation.longest_wait) rules.wait = whole_minutes(*operation.longest_wait, Round::down);
  rules.earliest = operation.earliest;
  rules.lasts = operation.lasts;
  rules.taken = operation.taken;
  rules.free = operation.free;
  return rules;
}

const WorkCalendar& hands_of(const Rules& rules, const WorkCalendar& shop) {
  return rules.free != nullptr ? *rules.free : shop;
}

struct Placing {
  Instant start, end;
};

/// The first instant at or after `from` at which an unbroken stretch of that length begins; any, for no length.
std::optional<Instant> next_room(const WorkCalendar& calendar, Instant from, minutes length) {
  if (length == minutes{0}) return from;
  for (auto stretch = stretch_at_or_after(calendar, from); stretch; stretch = stretch_at_or_after(calendar, from)) {
    const Instant start = std::max(from, stretch->from);
    if (start + length <= stretch->to) return start;
    from = stretch->to;
  }
  return std::nullopt;
}

/// Work that pauses: the first placing that neither starts nor ends before the bounds.
std::optional<Placing> placed_pausing(const Rules& rules, const WorkCalendar& calendar, Placing bounds) {
  if (rules.length == minutes{0}) {
    const auto moment = next_working(calendar, std::max(bounds.start, bounds.end));
    if (!moment) return std::nullopt;
    return Placing{*moment, *moment};
  }
  // Outside working hours, and at the first minute of them, work can end one minute of work later at the earliest.
  const bool may_end_there = last_working(calendar, bounds.end) == bounds.end;
  const minutes least_done = calendar.work_before(bounds.end) + minutes{may_end_there ? 0 : 1};
  const minutes before = std::max(calendar.work_before(bounds.start), least_done - rules.length);
  const auto start = calendar.start_after(before);
  const auto end = calendar.end_after(before + rules.length);
  if (!start || !end) return std::nullopt;
  return Placing{*start, *end};
}

/// An operation that runs by the clock: the first start and the first end for it, whether or not they suit each
/// other.
std::optional<Placing> placed_by_the_clock(const Rules& rules, const WorkCalendar& calendar, Placing bounds) {
  const WorkCalendar& hands = hands_of(rules, calendar);
  const minutes attended = rules.attended ? std::max(rules.length, minutes{1}) : minutes{0};
  auto start = next_room(calendar, bounds.start, attended);
  while (start) {  // the person has to be free, and somebody in the shop for as long as it takes
    const auto free = next_room(hands, *start, rules.at_start);
    if (!free || *free == *start) {
      start = free;
      break;
    }
    start = next_room(calendar, *free, attended);
  }
  if (!start) return std::nullopt;
  const auto last_part = next_room(hands, std::max(bounds.end, *start + rules.length) - rules.at_end, rules.at_end);
  if (!last_part) return std::nullopt;
  return Placing{*start, *last_part + rules.at_end};
}

/// What start the rules demand at least when a placing breaks one; none when all are kept.
std::optional<Instant> demanded_start(const Rules& rules, const WorkCalendar& calendar, Placing placed) {
  if (placed.end - placed.start > rules.most) return placed.end - rules.most;
  if (rules.attended) {
    const auto stretch_end = end_of_stretch(calendar, placed.start);
    if (stretch_end && placed.end > *stretch_end) return stretch_end;
  }
  const auto next = std::upper_bound(rules.taken.begin(), rules.taken.end(), placed.start,
                                     [](Instant start, const Interval& taken) { return start < taken.to; });
  if (next != rules.taken.end() && next->from < placed.end) return ceil<minutes>(next->to);
  return std::nullopt;
}

/// The earliest placing that keeps the operation's own rules and neither starts nor ends before the bounds.
std::optional<Placing> earliest(const Rules& rules, const WorkCalendar& calendar, Placing bounds, Instant stop) {
  while (true) {
    const auto placed = rules.pausing ? placed_pausing(rules, hands_of(rules, calendar), bounds)
                                      : placed_by_the_clock(rules, calendar, bounds);
    if (!placed || placed->end > stop) return std::nullopt;
    const auto demanded = demanded_start(rules, calendar, *placed);
    if (!demanded) return placed;
    bounds.start = *demanded;
  }
}

/// How long an operation lasts at least that shares with a placed one.
minutes shared_length(const Operation::Share& lasts, Placing other) {
  const Duration beyond = between(other.start, other.end) - lasts.unshared;
  return whole_minutes(std::max(lasts.share * beyond, Duration{}), Round::up);
}

/// The placing of operations one after the other; see schedule().
class Placer {
 public:
  Placer(std::span<const Rules> routing, const WorkCalendar& calendar, Instant from, Instant stop)
      : routing_{routing}, calendar_{calendar}, stop_{stop}, placed_(routing.size(), Placing{from, from}) {}

  std::optional<std::vector<Placing>> all() {
    std::size_t i = 0;
    while (i < routing_.size()) {
      const Rules& rules = routing_[i];
      const auto found = found_for(i);
      if (const auto start = better_start(i, found ? found->end : Instant::max())) {
        i = rules.lasts->of;
        placed_.at(i).start = *start;
        continue;
      }
      if (!found) return std::nullopt;
      placed_.at(i) = *found;
      if (i > 0 && rules.wait && found->start - placed_.at(i - 1).end > *rules.wait) {
        placed_.at(i - 1).end = found->start - *rules.wait;
        --i;
      } else {
        ++i;
      }
    }
    return std::move(placed_);
  }

 private:
  /// The rules of an operation as it is placed now: one that shares lasts as long as the other one demands.
  Rules rules_of(std::size_t i) const {
    Rules rules = routing_[i];
    if (!rules.lasts) return rules;
    const bool ends_itself = rules.most == rules.length;
    rules.length = std::max(rules.length, shared_length(*rules.lasts, placed_.at(rules.lasts->of)));
    if (ends_itself) rules.most = rules.length;
    return rules;
  }

  std::optional<Placing> found_for(std::size_t i) const {
    const Rules rules = rules_of(i);
    if (rules.length > rules.most) return std::nullopt;
    Placing bounds = placed_.at(i);
    if (i > 0) bounds.start = std::max(bounds.start, placed_.at(i - 1).end);
    if (rules.earliest) bounds.start = std::max<Instant>(bounds.start, ceil<minutes>(*rules.earliest));
    return earliest(rules, calendar_, bounds, stop_);
  }

  /// A later start of the operation that this one shares with, by which this one would end before `end`: where the
  /// other one runs longer than it has to, it begins so late that it need not, if it may wait for that.
  std::optional<Instant> better_start(std::size_t i, Instant end) {
    if (!routing_[i].lasts) return std::nullopt;
    const std::size_t other = routing_[i].lasts->of;
    const std::vector<Placing> before = placed_;
    const Placing as_it_is = before.at(other);
    if (as_it_is.end - as_it_is.start <= routing_[other].length) return std::nullopt;
    const Instant start = as_it_is.end - routing_[other].length;
    placed_.at(other).start = start;
    bool good = true;
    for (std::size_t k = other; k < i && good; ++k) {
      const auto next = found_for(k);
      const auto& wait = routing_[k].wait;
      good = next && (k == 0 || !wait || next->start - placed_.at(k - 1).end <= *wait);
      if (good) placed_.at(k) = *next;
    }
    const auto then = good ? found_for(i) : std::nullopt;
    placed_ = before;
    return then && then->end < end ? std::optional{start} : std::nullopt;
  }

  std::span<const Rules> routing_;
  const WorkCalendar& calendar_;
  Instant stop_;
  std::vector<Placing> placed_;
};

/// The earliest placings of all operations between two instants.
std::optional<std::vector<Placing>> placings(std::span<const Rules> routing, const WorkCalendar& calendar,
                                             Instant from, Instant stop) {
  return Placer{routing, calendar, from, stop}.all();
}

std::vector<Rules> rules_of(std::span<const Operation> routing) {
  std::vector<Rules> all;
  for (const Operation& operation : routing) all.push_back(rules_of(operation));
  return all;
}

/// What no calendar can mend, or this one cannot, whatever the other operations.
std::optional<Impossible> impossible_alone(const Operation& operation, const Rules& rules, minutes longest_stretch) {
  const Duration hands_on = operation.hands_on_at_start +
                            (operation.hands_on == HandsOn::at_both_ends ? operation.hands_on_at_end : Duration{});
  const Duration rounding = 1e-6 * minute;
  const bool has_longest = rules.pausing || operation.may_run_long;
  if (has_longest && operation.longest && *operation.longest + rounding < operation.length) {
    return Impossible::longest_below_length;
  }
  if (!rules.pausing && hands_on > operation.length + rounding) return Impossible::hands_on_above_length;
  if (std::max(rules.at_start, rules.at_end) > longest_stretch) return Impossible::hands_on_above_stretch;
  if (rules.attended && rules.length > longest_stretch) return Impossible::attended_above_stretch;
  return std::nullopt;
}

/// The first operation up to which no schedule is found, and why.
Obstacle obstacle(std::span<Rules> routing, const WorkCalendar& calendar, Instant from, Instant stop) {
  std::size_t last = 0;
  while (placings(routing.first(last + 1), calendar, from, stop)) ++last;
  Rules alone = routing[last];
  alone.lasts.reset();
  if (!placings({&alone, 1}, calendar, from, stop)) {
    alone.most = for_ever;
    alone.taken = {};
    alone.free = nullptr;
    return {placings({&alone, 1}, calendar, from, stop) ? Impossible::no_start_fits : Impossible::beyond_horizon,
            last};
  }
  routing[last].wait.reset();
  const bool without_wait = placings(routing.first(last + 1), calendar, from, stop).has_value();
  return {without_wait ? Impossible::wait_cannot_be_met : Impossible::beyond_horizon, last};
}

PlannedRun planned(const Rules& rules, const WorkCalendar& calendar, Placing placed) {
  PlannedRun run;
  run.at = {placed.start, placed.end};
  if (rules.pausing) {
    run.hands_on = work_between(hands_of(rules, calendar), placed.start, placed.end);
    return run;
  }
  if (rules.at_start > minutes{0}) run.hands_on.push_back({placed.start, placed.start + rules.at_start});
  if (rules.at_end > minutes{0}) run.hands_on.push_back({placed.end - rules.at_end, placed.end});
  return run;
}

}  // namespace

Sentence<0> reason(Impossible why) {
  switch (why) {
    case Impossible::no_working_time:
      return says::no_working_time;
    case Impossible::longest_below_length:
      return says::longest_below_length;
    case Impossible::hands_on_above_length:
      return says::hands_on_above_length;
    case Impossible::hands_on_above_stretch:
      return says::hands_on_above_stretch;
    case Impossible::attended_above_stretch:
      return says::attended_above_stretch;
    case Impossible::no_start_fits:
      return says::no_start_fits;
    case Impossible::wait_cannot_be_met:
      return says::wait_cannot_be_met;
    case Impossible::beyond_horizon:
      return says::beyond_horizon;
  }
  BW_EXPECT(false);
  return {};
}

std::vector<Interval> PlannedOperation::hands_on() const {
  std::vector<Interval> all;
  for (const PlannedRun& run : runs) all.insert(all.end(), run.hands_on.begin(), run.hands_on.end());
  std::ranges::sort(all, {}, &Interval::from);
  return all;
}

tl::expected<OrderSchedule, Obstacle> schedule(std::span<const Operation> routing, const WorkCalendar& calendar,
                                               Instant at) {
  const Instant from = ceil<minutes>(at);
  BW_EXPECT(calendar.covered().from <= at && at <= calendar.covered().to);
  const Instant stop = std::min(at + planning_horizon, calendar.covered().to);
  std::vector<Rules> rules = rules_of(routing);
  const auto first_work = next_working(calendar, from);
  if (!routing.empty() && (!first_work || *first_work > stop)) {
    return tl::unexpected{Obstacle{Impossible::no_working_time, 0}};
  }
  const minutes longest = longest_stretch(calendar);
  for (std::size_t i = 0; i < routing.size(); ++i) {
    if (const auto why = impossible_alone(routing[i], rules.at(i), longest)) {
      return tl::unexpected{Obstacle{*why, i}};
    }
  }
  const auto placed = placings(rules, calendar, from, stop);
  if (!placed) return tl::unexpected{obstacle(rules, calendar, from, stop)};
  OrderSchedule result{{}, placed->empty() ? from : placed->back().end};
  for (std::size_t i = 0; i < rules.size(); ++i) {
    PlannedRun run = planned(rules.at(i), calendar, placed->at(i));
    run.resource = routing[i].resource;
    result.operations.push_back({run.at.from, run.at.to, {std::move(run)}});
  }
  return result;
}

OrderSchedule joined(std::span<const Operation> routing, OrderSchedule planned, std::size_t steps) {
  OrderSchedule out{std::vector<PlannedOperation>(steps), planned.finish};
  for (std::size_t i = 0; i < routing.size(); ++i)
    add_runs(out.operations.at(routing[i].step), planned.operations.at(i));
  return out;
}

void add_runs(PlannedOperation& operation, const PlannedOperation& more) {
  if (more.runs.empty()) return;
  operation.start = operation.runs.empty() ? more.start : std::min(operation.start, more.start);
  operation.end = operation.runs.empty() ? more.end : std::max(operation.end, more.end);
  operation.runs.insert(operation.runs.end(), more.runs.begin(), more.runs.end());
  std::ranges::stable_sort(operation.runs, {}, [](const PlannedRun& run) { return run.at.from; });
}

std::optional<Instant> next_start(const OrderSchedule& planned) {
  std::optional<Instant> next;
  for (const PlannedOperation& operation : planned.operations) {
    for (const PlannedRun& run : operation.runs) {
      if (run.is == RunIs::planned) next = std::min(next.value_or(run.at.from), run.at.from);
    }
  }
  return next;
}

std::optional<Instant> latest_start(std::span<const Operation> routing, const WorkCalendar& calendar, Instant due) {
  const std::vector<Rules> rules = rules_of(routing);
  const auto on_time = [&](Instant start) { return placings(rules, calendar, start, due).has_value(); };
  const Instant earliest = ceil<minutes>(std::max(due - planning_horizon, calendar.covered().from));
  if (earliest > due || !on_time(earliest)) return std::nullopt;
  // Even a routing without operations ends when it begins, so what begins after the due date is late.
  const auto too_late = static_cast<int>(std::chrono::floor<minutes>(due - earliest).count()) + 1;
  return earliest + minutes{largest_that(0, too_late, [&](int n) { return on_time(earliest + minutes{n}); })};
}

minutes late_by(const OrderSchedule& planned, Instant due) {
  return planned.finish > due ? ceil<minutes>(planned.finish - due) : minutes{0};
}

Delivery delivery(std::span<const Operation> routing, const WorkCalendar& calendar, const OrderSchedule& planned,
                  Instant due) {
  Delivery result{due, latest_start(routing, calendar, due), std::nullopt, late_by(planned, due)};
  if (const auto next = next_start(planned); next && result.latest_start) {
    result.slack = std::chrono::floor<minutes>(*result.latest_start - *next);
  }
  return result;
}

}  // namespace blankwright
