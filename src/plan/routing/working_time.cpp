#include "plan/routing/working_time.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "diagnose/failure.h"

namespace blankwright {

using std::chrono::ceil;
using std::chrono::days;
using std::chrono::floor;
using std::chrono::minutes;
using std::chrono::sys_days;

namespace {

void add_stretches_of(const WorkingTime& working, sys_days day, std::vector<Interval>& out) {
  const Date date{day};
  if (std::ranges::find(working.days_off, date) != working.days_off.end()) return;
  for (const WorkStretch& stretch : working.week.at(std::chrono::weekday{day}.iso_encoding() - 1)) {
    BW_EXPECT(minutes{0} <= stretch.from && stretch.from < stretch.to && stretch.to <= days{1});
    // A stretch that lies in the gap of a spring change comes out empty, and is left out where they are joined.
    out.push_back({ceil<minutes>(instant_of(working.zone, date, stretch.from)),
                   floor<minutes>(instant_of(working.zone, date, stretch.to))});
  }
}

std::vector<Interval> stretches_within(const WorkingTime& working, Instant from, Instant to) {
  std::vector<Interval> found;
  // A day more at either end: the zone's days are not those of UTC.
  for (sys_days day = floor<days>(from) - days{1}; day <= floor<days>(to) + days{1}; day += days{1}) {
    add_stretches_of(working, day, found);
  }
  return joined(std::move(found));
}

/// Those that end after the instant.
std::span<const Interval> ending_after(std::span<const Interval> intervals, Instant instant) {
  return {std::ranges::upper_bound(intervals, instant, {}, &Interval::to), intervals.end()};
}

}  // namespace

std::vector<Interval> joined(std::vector<Interval> intervals) {
  std::ranges::sort(intervals, {}, [](const Interval& i) { return std::pair{i.from, i.to}; });
  std::vector<Interval> apart;
  for (const Interval& next : intervals) {
    if (next.from >= next.to) continue;
    if (!apart.empty() && next.from <= apart.back().to) {
      apart.back().to = std::max(apart.back().to, next.to);
    } else {
      apart.push_back(next);
    }
  }
  return apart;
}

WorkCalendar::WorkCalendar(const WorkingTime& working, Instant around)
    : WorkCalendar{working.zone,
                   {around - planning_horizon, around + planning_horizon},
                   stretches_within(working, around - planning_horizon, around + planning_horizon)} {}

WorkCalendar::WorkCalendar(const Zone& zone, Interval covered, std::vector<Interval> stretches)
    : zone_{zone}, covered_{covered}, stretches_{std::move(stretches)} {
  behind_.reserve(stretches_.size() + 1);
  behind_.push_back(minutes{0});
  for (const Interval& stretch : stretches_) {
    behind_.push_back(behind_.back() + floor<minutes>(stretch.to - stretch.from));
  }
}

WorkCalendar WorkCalendar::without(std::span<const Interval> promised) const {
  std::vector<Interval> gone;
  for (const Interval& p : promised) gone.push_back({floor<minutes>(p.from), ceil<minutes>(p.to)});
  gone = joined(std::move(gone));
  std::vector<Interval> left;
  left.reserve(stretches_.size() + gone.size());
  auto first = gone.begin();  // that ends after the stretch begins; it only goes on, as the stretches do
  for (Interval stretch : stretches_) {
    while (first != gone.end() && first->to <= stretch.from) ++first;
    for (auto taken = first; taken != gone.end() && taken->from < stretch.to; ++taken) {
      if (stretch.from < taken->from) left.push_back({stretch.from, taken->from});
      stretch.from = taken->to;
    }
    if (stretch.from < stretch.to) left.push_back(stretch);
  }
  return WorkCalendar{zone_, covered_, std::move(left)};
}

WorkCalendar WorkCalendar::with(std::span<const Interval> given_back) const {
  std::vector<Interval> all{stretches_};
  all.insert(all.end(), given_back.begin(), given_back.end());
  return WorkCalendar{zone_, covered_, joined(std::move(all))};
}

WorkCalendar WorkCalendar::in_stretches_of(minutes least) const {
  std::vector<Interval> left;
  std::ranges::copy_if(stretches_, std::back_inserter(left),
                       [&](const Interval& s) { return s.to - s.from >= least; });
  return WorkCalendar{zone_, covered_, std::move(left)};
}

WorkCalendar WorkCalendar::within(Interval span) const {
  const Interval covered{std::max(covered_.from, span.from), std::min(covered_.to, span.to)};
  std::vector<Interval> left;
  for (const Interval& stretch : ending_after(stretches_, covered.from)) {
    if (stretch.from >= covered.to) break;
    left.push_back({std::max(stretch.from, covered.from), std::min(stretch.to, covered.to)});
  }
  return WorkCalendar{zone_, covered, std::move(left)};
}

Instant WorkCalendar::next_day(Instant instant) const { return instant_of(zone_, date_of(zone_, instant), days{1}); }

minutes WorkCalendar::work_before(Instant instant) const {
  const std::span<const Interval> to_come = ending_after(stretches_, instant);
  const minutes behind = behind_.at(stretches_.size() - to_come.size());
  if (to_come.empty() || instant <= to_come.front().from) return behind;
  return behind + floor<minutes>(instant - to_come.front().from);
}

std::optional<Instant> WorkCalendar::start_after(minutes work) const {
  const auto next = std::ranges::upper_bound(behind_, work);
  if (next == behind_.begin() || next == behind_.end()) return std::nullopt;
  const auto index = static_cast<std::size_t>(next - behind_.begin()) - 1;
  return stretches_.at(index).from + (work - behind_.at(index));
}

std::optional<Instant> WorkCalendar::end_after(minutes work) const {
  const auto next = std::ranges::lower_bound(behind_, work);
  if (next == behind_.begin() || next == behind_.end()) return std::nullopt;
  const auto index = static_cast<std::size_t>(next - behind_.begin()) - 1;
  return stretches_.at(index).from + (work - behind_.at(index));
}

std::optional<Interval> stretch_at_or_after(const WorkCalendar& calendar, Instant instant) {
  const auto to_come = ending_after(calendar.stretches(), instant);
  if (to_come.empty()) return std::nullopt;
  return to_come.front();
}

std::optional<Instant> next_working(const WorkCalendar& calendar, Instant instant) {
  const auto stretch = stretch_at_or_after(calendar, instant);
  if (!stretch) return std::nullopt;
  return std::max(instant, stretch->from);
}

std::optional<Instant> last_working(const WorkCalendar& calendar, Instant instant) {
  const auto stretches = calendar.stretches();
  const auto later = std::ranges::lower_bound(stretches, instant, {}, &Interval::from);
  if (later == stretches.begin()) return std::nullopt;
  return std::min(instant, std::prev(later)->to);
}

std::optional<Instant> end_of_stretch(const WorkCalendar& calendar, Instant instant) {
  const auto stretch = stretch_at_or_after(calendar, instant);
  if (!stretch || stretch->from > instant) return std::nullopt;
  return stretch->to;
}

std::optional<Instant> add_work(const WorkCalendar& calendar, Instant instant, minutes work) {
  BW_EXPECT(work >= minutes{0});
  if (work == minutes{0}) return next_working(calendar, instant);
  return calendar.end_after(calendar.work_before(ceil<minutes>(instant)) + work);
}

std::vector<Interval> work_between(const WorkCalendar& calendar, Instant from, Instant to) {
  std::vector<Interval> parts;
  for (const Interval& stretch : ending_after(calendar.stretches(), from)) {
    if (stretch.from >= to) break;
    parts.push_back({std::max(from, stretch.from), std::min(to, stretch.to)});
  }
  return parts;
}

minutes longest_stretch(const WorkCalendar& calendar) {
  minutes longest{0};
  for (const Interval& stretch : calendar.stretches()) {
    longest = std::max(longest, floor<minutes>(stretch.to - stretch.from));
  }
  return longest;
}

std::optional<Instant> end_of_work(const WorkingTime& working, Date date) {
  for (sys_days day = date; day >= sys_days{date} - planning_horizon; day -= days{1}) {
    std::vector<Interval> found;
    add_stretches_of(working, day, found);
    found = joined(std::move(found));
    if (!found.empty()) return found.back().to;
  }
  return std::nullopt;
}

}  // namespace blankwright
