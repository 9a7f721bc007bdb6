#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "plan/routing/schedule.h"

namespace blankwright {

/// Who and what of the shop is promised so far. Operations are planned round it, and then promised too.
class ShopCalendar {
 public:
  /// `hours` has to outlive it.
  explicit ShopCalendar(const WorkCalendar& hours) : hours_{hours} {}

  /// Plans operations one after the other from `from` on, round what is promised, and promises what they need. The
  /// resource named `in_turn` is used in the order of the calls, without slipping into gaps.
  tl::expected<OrderSchedule, Obstacle> place(std::vector<Operation> routing, Instant from,
                                              const std::string& in_turn);

 private:
  const WorkCalendar& free_time_of(const std::string& who) const;

  const WorkCalendar& hours_;
  std::map<std::string, std::unique_ptr<WorkCalendar>> free_;  ///< by person, of whom something was promised
  std::map<std::string, std::vector<Interval>> taken_;         ///< by vessel or oven, in order, apart
};

}  // namespace blankwright
