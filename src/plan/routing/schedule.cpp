#include "plan/routing/schedule.h"

#include <algorithm>

#include "diagnose/failure.h"
#include "diagnose/says_shop.h"
#include "measure/elapsed.h"
#include "measure/largest_that.h"
#include "measure/quantity_text.h"
#include "plan/routing/placing.h"

namespace blankwright {

using std::chrono::ceil;
using std::chrono::minutes;

namespace {

/// How long an operation lasts at least that shares with a placed one.
minutes shared_length(const Operation::Share& lasts, Placing other) {
  const Duration beyond = between(other.start, other.end) - lasts.unshared;
  return whole_minutes(std::max(lasts.share * beyond, Duration{}), Round::up);
}

/// The placing of operations one after the other; see schedule().
class Placer {
 public:
  Placer(std::span<const Rules> routing, const WorkCalendar& calendar, Instant from, Instant stop)
      : routing_{routing}, calendar_{calendar}, stop_{stop}, placed_(routing.size(), Placing{from, from}) {
    for (std::size_t i = 0; i < routing.size(); ++i) {
      if (routing[i].ends_from) placed_.at(i).end = std::max<Instant>(from, ceil<minutes>(*routing[i].ends_from));
    }
  }

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

  /// The one of an operation's step before it.
  std::size_t last_of_step(std::size_t i) const {
    std::size_t last = i - 1;
    while (last > 0 && routing_[last].step != routing_[i].step) --last;
    return last;
  }

  std::optional<Placing> found_for(std::size_t i) const {
    const Rules rules = rules_of(i);
    if (rules.length > rules.most) return std::nullopt;
    Placing bounds = placed_.at(i);
    if (i > 0) bounds.start = std::max(bounds.start, placed_.at(i - 1).end);
    if (i > 0 && rules.on_a_later_day) {
      bounds.start = std::max(bounds.start, calendar_.next_day(placed_.at(last_of_step(i)).start));
    }
    if (rules.earliest) bounds.start = std::max<Instant>(bounds.start, ceil<minutes>(*rules.earliest));
    return earliest(rules, calendar_, bounds, stop_);
  }

  /// A later start of the operation that this one shares with, by which this one would end before `end`: where the
  /// other one runs longer than it has to, it begins so late that it need not, if it may wait for that. What runs
  /// already has begun when it did.
  std::optional<Instant> better_start(std::size_t i, Instant end) {
    if (!routing_[i].lasts) return std::nullopt;
    const std::size_t other = routing_[i].lasts->of;
    if (routing_[other].begun) return std::nullopt;
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
  if (std::max({rules.at_start, rules.at_end, rules.least_part}) > longest_stretch) {
    return Impossible::hands_on_above_stretch;
  }
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
    alone.hands = {&calendar};
    alone.in_a_day = false;
    return {placings({&alone, 1}, calendar, from, stop) ? Impossible::no_start_fits : Impossible::beyond_horizon,
            last};
  }
  routing[last].wait.reset();
  const bool without_wait = placings(routing.first(last + 1), calendar, from, stop).has_value();
  return {without_wait ? Impossible::wait_cannot_be_met : Impossible::beyond_horizon, last};
}

PlannedRun planned(const Rules& rules, const Operation& operation, Placing placed) {
  PlannedRun run;
  run.at = {placed.start, placed.end};
  const auto who = [&](std::size_t hand) {
    return operation.hands.empty() ? std::string{} : operation.hands.at(hand).name;
  };
  if (rules.pausing) {
    for (const Interval& part : work_between(*rules.hands.at(placed.begun_by), placed.start, placed.end))
      run.hands_on.push_back({part, who(placed.begun_by)});
    return run;
  }
  if (rules.at_start > minutes{0})
    run.hands_on.push_back({{placed.start, placed.start + rules.at_start}, who(placed.begun_by)});
  if (rules.at_end > minutes{0})
    run.hands_on.push_back({{placed.end - rules.at_end, placed.end}, who(placed.ended_by)});
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

std::vector<HandsOnTime> PlannedOperation::hands_on() const {
  std::vector<HandsOnTime> all;
  for (const PlannedRun& run : runs) all.insert(all.end(), run.hands_on.begin(), run.hands_on.end());
  std::ranges::sort(all, {}, [](const HandsOnTime& at) { return at.from; });
  return all;
}

tl::expected<OrderSchedule, Obstacle> schedule(std::span<const Operation> routing, const WorkCalendar& calendar,
                                               Instant at) {
  const Instant from = ceil<minutes>(at);
  BW_EXPECT(calendar.covered().from <= at && at <= calendar.covered().to);
  const Instant stop = std::min(at + planning_horizon, calendar.covered().to);
  RoutingRules by_rule{routing, calendar};
  std::vector<Rules>& rules = by_rule.all;
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
    PlannedRun run = planned(rules.at(i), routing[i], placed->at(i));
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
  const RoutingRules by_rule{routing, calendar};
  const auto on_time = [&](Instant start) { return placings(by_rule.all, calendar, start, due).has_value(); };
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
  const auto next = next_start(planned);
  // What is planned to be on time can begin when it is planned to, also where one of its baths has another turn.
  if (next && result.late_by == minutes{0})
    result.latest_start = std::max(result.latest_start.value_or(*next), *next);
  if (next && result.latest_start) {
    result.slack = std::chrono::floor<minutes>(*result.latest_start - *next);
  }
  return result;
}

}  // namespace blankwright
