#pragma once

#include <string_view>

#include <doctest/doctest.h>

#include "plan/routing/schedule.h"

namespace blankwright {

/// The instant of a text in RFC 3339.
inline Instant at(std::string_view moment) {
  const auto instant = parse_instant(moment, Zone{});
  REQUIRE(instant.has_value());
  return *instant;
}

/// When somebody is at it, whoever it is.
inline std::vector<Interval> when(const std::vector<HandsOnTime>& all) { return {all.begin(), all.end()}; }

/// Monday to Friday 08:00 to 12:00 and 13:00 to 17:00.
inline WorkingTime weekdays_in(std::string_view zone) {
  using namespace std::chrono_literals;
  WorkingTime working{find_zone(zone).value(), {}, {}};
  for (std::size_t day = 0; day < 5; ++day) working.week.at(day) = {{8h, 12h}, {13h, 17h}};
  return working;
}

}  // namespace blankwright
