#include "plan/shop/usual_hours.h"

#include <algorithm>

namespace blankwright {

UsualHours::UsualHours(const WorkingTime& working) : zone_{working.zone} {
  const auto works = [&](std::size_t day, std::size_t of_day) {
    const std::chrono::minutes at{static_cast<int>(of_day)};
    return std::ranges::any_of(working.week.at(day),
                               [&](const WorkStretch& stretch) { return stretch.from <= at && at < stretch.to; });
  };
  const auto days = std::ranges::count_if(working.week, [](const auto& stretches) { return !stretches.empty(); });
  std::array<int, 7> length{};  // of each day, in usual minutes
  for (std::size_t of_day = 0; of_day < minutes_of_day; ++of_day) {
    int at_work = 0;
    for (std::size_t day = 0; day < day_.size(); ++day) at_work += works(day, of_day) ? 1 : 0;
    minute_.at(of_day) = 2 * at_work >= days;
    for (std::size_t day = 0; day < day_.size(); ++day) {
      if (minute_.at(of_day) && works(day, of_day)) ++length.at(day);
    }
  }
  for (std::size_t day = 0; day < day_.size(); ++day) day_.at(day) = 2 * length.at(day) >= std::ranges::max(length);
}

bool UsualHours::have(Instant moment) const {
  const LocalTime local = local_time(zone_, moment);
  return day_.at(local.weekday) && minute_.at(local.hour * 60 + local.minute);
}

}  // namespace blankwright
