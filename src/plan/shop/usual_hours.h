#pragma once

#include <array>

#include "plan/routing/working_time.h"

namespace blankwright {

/// When a shop is usually at work: at times of the day that at least half of its weekdays share, on weekdays that
/// have at least half as much of them as the longest one. So a Saturday morning is unusual, and one late evening of
/// the week; a short Friday is not. By the shop's own hours: a person's further ones are unusual as well.
class UsualHours {
 public:
  explicit UsualHours(const WorkingTime& working);
  bool have(Instant moment) const;

 private:
  static constexpr std::size_t minutes_of_day = 24 * 60;
  Zone zone_;
  std::array<bool, 7> day_{};
  std::array<bool, minutes_of_day> minute_{};
};

}  // namespace blankwright
