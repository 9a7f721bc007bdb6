#pragma once

#include <chrono>
#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "measure/quantity_text.h"
#include "plan/routing/operation.h"

// When one operation can be done: its own rules in whole minutes, kept by themselves. schedule() puts operations one
// after the other.

namespace blankwright {

/// Longer than any calendar, short enough to be added to any instant.
inline constexpr std::chrono::minutes for_ever = 10 * planning_horizon;

/// Of a duration ≥ 0; at most for_ever.
std::chrono::minutes whole_minutes(Duration duration, Round round);

/// An operation's rules in whole minutes.
struct Rules {
  bool pausing = false;
  bool attended = false;
  bool begun = false;
  std::chrono::minutes length{}, most{};
  std::chrono::minutes at_start{}, at_end{};
  std::optional<std::chrono::minutes> wait;
  std::optional<Instant> earliest, ends_from;
  std::optional<Operation::Share> lasts;
  std::chrono::minutes least_part{};
  bool in_a_day = false, on_a_later_day = false;
  std::size_t step = 0;
  std::span<const Interval> taken;
  std::vector<const WorkCalendar*> hands;  ///< when each of its people has time
};

/// The rules of all operations of a routing, with their people's time without stretches too short to work in. Routing
/// and calendar outlive it.
class RoutingRules {
 public:
  RoutingRules(std::span<const Operation> routing, const WorkCalendar& shop);
  RoutingRules(const RoutingRules&) = delete;
  RoutingRules& operator=(const RoutingRules&) = delete;

  std::vector<Rules> all;

 private:
  const WorkCalendar* long_enough(const WorkCalendar& calendar, std::chrono::minutes least);

  std::map<std::pair<const WorkCalendar*, std::chrono::minutes>, WorkCalendar> long_enough_;
};

struct Placing {
  Instant start, end;
  std::size_t begun_by = 0, ended_by = 0;  ///< whose hands, of the operation's
};

/// The earliest placing that keeps the operation's own rules, neither starts nor ends before the bounds, and ends by
/// `stop`; none where there is none.
std::optional<Placing> earliest(const Rules& rules, const WorkCalendar& calendar, Placing bounds, Instant stop);

}  // namespace blankwright
