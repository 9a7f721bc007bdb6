#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "diagnose/sentence.h"
#include "entries/blank_id.h"
#include "measure/instant.h"
#include "measure/quantity.h"
#include "plan/routing/operation.h"

namespace blankwright {

/// When somebody is at an operation.
struct HandsOnTime : Interval {
  std::string who;
};

/// One time that an operation is done.
struct PlannedRun {
  Interval at;
  std::vector<HandsOnTime> hands_on;      ///< of this run, in order
  std::string resource;                   ///< vessel, oven or machine that it is done in; empty for none
  std::optional<std::size_t> bath, load;  ///< of the shop's plan, whose blanks it is done to
  int blanks = 0;                         ///< of the order; 0 until it is said, see count_blanks()
  RunIs is = RunIs::planned;
  std::string name{};                  ///< of the bath or load that it is done to, as entries name it
  std::optional<BlankId> lowest{};     ///< of the blanks of a bath to come that it is done to, apart from the others
  std::optional<Instant> least_end{};  ///< of what runs, by the clock alone and by its readings
};

struct PlannedOperation {
  Instant start, end;            ///< of the first run, and of the last
  std::vector<PlannedRun> runs;  ///< in order; none where nothing is left to do
  /// When somebody is at it, of all runs, in order; within working hours.
  std::vector<HandsOnTime> hands_on() const;
};

/// One order's operations in their order, none before the one before it has ended. Every start and end is as early as
/// the rules allow, all at once: among all schedules that keep the rules there is one that is earliest everywhere.
/// Where an operation lasts a share of another one that may run long there is none: then the other one begins as
/// early as it can, or as soon after as it need not run long, whichever lets the one that shares end earlier. Nor is
/// there where work can be cut in several ways, or done by several people: then what ends first is taken.
struct OrderSchedule {
  std::vector<PlannedOperation> operations;
  Instant finish;  ///< the last operation's end
};

enum class Impossible {
  no_working_time,         ///< nobody works within the planning horizon
  longest_below_length,    ///< it may last at most less than it lasts at least
  hands_on_above_length,   ///< its hands-on time is longer than the operation
  hands_on_above_stretch,  ///< its hands-on time, or the least part of it, is longer than any unbroken stretch
  attended_above_stretch,  ///< somebody must be in the shop for longer than any unbroken stretch of work
  no_start_fits,           ///< whenever it starts, its end falls outside working hours (or its resource is taken)
  wait_cannot_be_met,      ///< however late the operations before it are, it starts too long after them
  beyond_horizon,          ///< it would end after the planning horizon
};

/// Why, in a phrase that goes on from the operation's name: "its hands-on time is longer than it lasts".
Sentence<0> reason(Impossible why);

/// What stands in the way of a schedule, and the first operation at which it does.
struct Obstacle {
  Impossible why;
  std::size_t operation;
};

/// The earliest schedule that begins at or after `at`, which must lie in the calendar. It looks ahead for a planning
/// horizon, or to the calendar's end. A routing without operations is finished at `at`.
///
/// Bounds are raised until all rules hold: an operation starts when the one before it has ended and somebody is
/// there; one that would wait too long moves the *end* of the one before it later, by letting that run long where it
/// may, else by starting it later. No bound is ever raised further than some rule demands, so what comes out is the
/// earliest; and since each step passes a stretch of work, it ends, at the horizon at the latest.
tl::expected<OrderSchedule, Obstacle> schedule(std::span<const Operation> routing, const WorkCalendar& calendar,
                                               Instant at);

/// The schedule with one operation for each of so many steps of the routing: from the first start to the last end of
/// its runs, of which a step that nothing is left of has none.
OrderSchedule joined(std::span<const Operation> routing, OrderSchedule planned, std::size_t steps);

/// When the first of its runs that is neither over nor under way is to start; none where there is none.
std::optional<Instant> next_start(const OrderSchedule& planned);

/// Takes further runs of an operation together with those so far.
void add_runs(PlannedOperation& operation, const PlannedOperation& more);

/// The last whole minute at which the first operation can start so that all is done by `due`; found by halving with
/// the same rules as schedule(), whose finish never gets earlier by beginning later. None when there is none in the
/// planning horizon before `due` and within the calendar.
std::optional<Instant> latest_start(std::span<const Operation> routing, const WorkCalendar& calendar, Instant due);

/// How a schedule stands against its due date.
struct Delivery {
  Instant due;                          ///< the end of working time on the due date: see end_of_work()
  std::optional<Instant> latest_start;  ///< see latest_start()
  std::optional<std::chrono::minutes>
      slack;                       ///< from the next planned to the latest start, by the clock; negative if late
  std::chrono::minutes late_by{};  ///< from due to finish, by the clock; 0 when on time
};
/// From due to finish, by the clock; 0 when on time.
std::chrono::minutes late_by(const OrderSchedule& planned, Instant due);
Delivery delivery(std::span<const Operation> routing, const WorkCalendar& calendar, const OrderSchedule& planned,
                  Instant due);

}  // namespace blankwright
