#pragma once

#include <array>
#include <chrono>
#include <optional>
#include <span>
#include <vector>

#include "measure/instant.h"

namespace blankwright {

/// A stretch of work by the clock on the wall, counted from midnight: 0 ≤ from < to ≤ 24 h.
struct WorkStretch {
  std::chrono::minutes from, to;
};

/// When the shop is at work. The stretches of a day may stand in any order; those that touch or overlap are one, also
/// across midnight (a night shift is written as two). Nobody works on a day off.
struct WorkingTime {
  Zone zone;
  std::array<std::vector<WorkStretch>, 7> week;  ///< Monday first
  std::vector<Date> days_off;
};

/// From one instant up to but without another; from < to.
struct Interval {
  Instant from, to;
  friend bool operator==(const Interval&, const Interval&) = default;
};

/// One after the other, those that touch or overlap joined; what is empty is left out.
std::vector<Interval> joined(std::vector<Interval> intervals);

/// How far ahead and back anything is planned: three years.
inline constexpr std::chrono::days planning_horizon{3 * 365 + 1};

/// The stretches of one working time as instants: apart from each other, in order, on whole minutes. An hour here is
/// an hour also on the days when the clock is changed, so a stretch across the change is as long as it really is.
class WorkCalendar {
 public:
  /// The working time from planning_horizon before `around` to planning_horizon after.
  WorkCalendar(const WorkingTime& working, Instant around);

  /// The same calendar without what is already promised to something else: the intervals may overlap and need no
  /// order; begun minutes count as promised.
  WorkCalendar without(std::span<const Interval> promised) const;

  /// And with the intervals that were promised, given back.
  WorkCalendar with(std::span<const Interval> given_back) const;

  /// And with those stretches alone that are so long at least.
  WorkCalendar in_stretches_of(std::chrono::minutes least) const;

  /// And what of it lies within a span, as if it covered no more.
  WorkCalendar within(Interval span) const;

  std::span<const Interval> stretches() const { return stretches_; }
  Interval covered() const { return covered_; }
  /// The beginning of the day after the instant's, by the clock on the wall.
  Instant next_day(Instant instant) const;

  /// Minutes of work from the calendar's beginning to an instant.
  std::chrono::minutes work_before(Instant instant) const;
  /// The last instant with that much work behind it, at which work can go on; none past the calendar's end.
  std::optional<Instant> start_after(std::chrono::minutes work) const;
  /// The first instant at which that much work is done; none past the calendar's end.
  std::optional<Instant> end_after(std::chrono::minutes work) const;

 private:
  WorkCalendar(const Zone& zone, Interval covered, std::vector<Interval> stretches);

  Zone zone_;
  Interval covered_;
  std::vector<Interval> stretches_;
  std::vector<std::chrono::minutes> behind_;  // work before each stretch, and before the calendar's end
};

/// The stretch that contains the instant (its end does not count), or the next one after it.
std::optional<Interval> stretch_at_or_after(const WorkCalendar& calendar, Instant instant);

/// The first instant at or after `instant` at which the shop is at work; none within the calendar.
std::optional<Instant> next_working(const WorkCalendar& calendar, Instant instant);

/// The last instant at or before `instant` that follows a time of work: inside a stretch the instant itself, else the
/// end of the stretch before it. None within the calendar.
std::optional<Instant> last_working(const WorkCalendar& calendar, Instant instant);

/// The end of the stretch that contains the instant; none outside working hours.
std::optional<Instant> end_of_stretch(const WorkCalendar& calendar, Instant instant);

/// When work of that length is done that begins at the next working instant and pauses outside working hours. No work
/// at all is done at that next working instant. None past the calendar's end.
std::optional<Instant> add_work(const WorkCalendar& calendar, Instant instant, std::chrono::minutes work);

/// The stretches, or parts of them, between two instants: when somebody is at a pausing operation.
std::vector<Interval> work_between(const WorkCalendar& calendar, Instant from, Instant to);

/// The longest unbroken stretch; 0 when there is no working time.
std::chrono::minutes longest_stretch(const WorkCalendar& calendar);

/// The end of working time on a date; on a date without work, that of the last day before with work. None when there
/// is none within planning_horizon.
std::optional<Instant> end_of_work(const WorkingTime& working, Date date);

}  // namespace blankwright
