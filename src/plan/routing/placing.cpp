#include "plan/routing/placing.h"

#include <algorithm>
#include <iterator>

#include "diagnose/failure.h"

namespace blankwright {

using std::chrono::ceil;
using std::chrono::minutes;

namespace {

Rules rules_of(const Operation& operation) {
  Rules rules;
  rules.pausing = operation.hands_on == HandsOn::throughout;
  rules.begun = operation.begun.has_value();
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
  rules.ends_from = operation.ends_from;
  rules.lasts = operation.lasts;
  if (rules.pausing) rules.least_part = std::min(whole_minutes(operation.least_part, Round::up), rules.length);
  rules.in_a_day = operation.in_a_day;
  rules.on_a_later_day = operation.on_a_later_day;
  rules.step = operation.step;
  rules.taken = operation.taken;
  return rules;
}

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

/// The same of whoever has room first.
struct Room {
  Instant from;
  std::size_t whose;
};
std::optional<Room> first_room(std::span<const WorkCalendar* const> hands, Instant from, minutes length) {
  std::optional<Room> first;
  for (std::size_t i = 0; i < hands.size(); ++i) {
    const auto room = next_room(*hands[i], from, length);
    if (room && (!first || *room < first->from)) first = Room{*room, i};
  }
  return first;
}

/// Work that pauses, with `before` minutes of work behind it at the earliest, cut into parts that are long enough.
std::optional<Placing> placed_in_parts(const Rules& rules, const WorkCalendar& calendar, minutes before) {
  while (true) {
    const auto start = calendar.start_after(before);
    const auto end = calendar.end_after(before + rules.length);
    if (!start || !end) return std::nullopt;
    const auto parts = work_between(calendar, *start, *end);
    const auto too_short =
        std::ranges::find_if(parts, [&](const Interval& part) { return part.to - part.from < rules.least_part; });
    if (too_short == parts.end()) return Placing{*start, *end};
    // What is short at the end grows as work begins later; what is short at the beginning is not begun.
    const auto length = std::chrono::floor<minutes>(too_short->to - too_short->from);
    const bool is_last = std::next(too_short) == parts.end();
    before = is_last ? before + (rules.least_part - length) : calendar.work_before(too_short->to);
  }
}

/// Work that pauses, done by one person: the first placing that neither starts nor ends before the bounds.
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
  return placed_in_parts(rules, calendar, before);
}

/// The same by whoever is ready first.
std::optional<Placing> placed_pausing_by_any(const Rules& rules, Placing bounds) {
  std::optional<Placing> first;
  for (std::size_t i = 0; i < rules.hands.size(); ++i) {
    const auto placed = placed_pausing(rules, *rules.hands.at(i), bounds);
    if (placed && (!first || placed->end < first->end)) first = Placing{placed->start, placed->end, i, i};
  }
  return first;
}

/// An operation that runs by the clock: the first start and the first end for it, whether or not they suit each
/// other.
std::optional<Placing> placed_by_the_clock(const Rules& rules, const WorkCalendar& calendar, Placing bounds) {
  const minutes attended = rules.attended ? std::max(rules.length, minutes{1}) : minutes{0};
  Room begun{bounds.start, 0};
  while (true) {  // somebody has to be free, and somebody in the shop for as long as it takes
    const auto in_shop = next_room(calendar, begun.from, attended);
    const auto free = in_shop ? first_room(rules.hands, *in_shop, rules.at_start) : std::nullopt;
    if (!free) return std::nullopt;
    begun = *free;
    if (free->from == *in_shop) break;
  }
  const auto last_part =
      first_room(rules.hands, std::max(bounds.end, begun.from + rules.length) - rules.at_end, rules.at_end);
  if (!last_part) return std::nullopt;
  return Placing{begun.from, last_part->from + rules.at_end, begun.whose, last_part->whose};
}

/// What start the rules demand at least when a placing breaks one; none when all are kept.
std::optional<Instant> demanded_start(const Rules& rules, const WorkCalendar& calendar, Placing placed) {
  if (placed.end - placed.start > rules.most) return placed.end - rules.most;
  if (rules.attended) {
    const auto stretch_end = end_of_stretch(calendar, placed.start);
    if (stretch_end && placed.end > *stretch_end) return stretch_end;
  }
  if (rules.in_a_day && placed.end > calendar.next_day(placed.start)) return calendar.next_day(placed.start);
  const auto next = std::upper_bound(rules.taken.begin(), rules.taken.end(), placed.start,
                                     [](Instant start, const Interval& taken) { return start < taken.to; });
  if (next != rules.taken.end() && next->from < placed.end) return ceil<minutes>(next->to);
  return std::nullopt;
}

}  // namespace

minutes whole_minutes(Duration duration, Round round) {
  BW_EXPECT(duration >= Duration{});
  const double most = static_cast<double>(for_ever.count());
  return minutes{static_cast<minutes::rep>(std::min(most, rounded(duration / minute, 1.0, round)))};
}

RoutingRules::RoutingRules(std::span<const Operation> routing, const WorkCalendar& shop) {
  for (const Operation& operation : routing) {
    Rules& rules = all.emplace_back(rules_of(operation));
    if (operation.hands.empty()) rules.hands = {long_enough(shop, rules.least_part)};
    for (const Worker& hand : operation.hands)
      rules.hands.push_back(long_enough(hand.free != nullptr ? *hand.free : shop, rules.least_part));
  }
}

const WorkCalendar* RoutingRules::long_enough(const WorkCalendar& calendar, minutes least) {
  if (least == minutes{0}) return &calendar;
  const auto key = std::pair{&calendar, least};
  auto found = long_enough_.find(key);
  if (found == long_enough_.end()) found = long_enough_.emplace(key, calendar.in_stretches_of(least)).first;
  return &found->second;
}

std::optional<Placing> earliest(const Rules& rules, const WorkCalendar& calendar, Placing bounds, Instant stop) {
  while (true) {
    const auto placed =
        rules.pausing ? placed_pausing_by_any(rules, bounds) : placed_by_the_clock(rules, calendar, bounds);
    if (!placed || placed->end > stop) return std::nullopt;
    const auto demanded = demanded_start(rules, calendar, *placed);
    // What runs has begun when it did: where nobody can end it in time, it ends as soon as somebody is there.
    if (!demanded || rules.begun) return placed;
    bounds.start = *demanded;
  }
}

}  // namespace blankwright
