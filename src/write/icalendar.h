#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/instant.h"

namespace blankwright {

/// An event of a calendar file. Texts are UTF-8.
struct CalendarEvent {
  std::string uid;              ///< the same whenever the event is written again, so that a calendar moves it
  int sequence = 0;             ///< higher when it tells something else than before
  Instant from, to;             ///< the same where it takes no time
  std::optional<Date> all_day;  ///< instead of from and to
  std::string summary, description, place, category;  ///< without the last three where they are empty
  bool busy = true;                                   ///< whoever is at it cannot be at something else
  bool cancelled = false;
  bool alarm = false;  ///< it is shown when the event begins
};

struct CalendarFile {
  std::string name;
  std::string program;  ///< "Blankwright 0.1.0"
  Instant made;         ///< from the inputs, never from the clock
  bool tentative = false;
  std::vector<CalendarEvent> events;
};

/// The file as iCalendar (RFC 5545; the calendar's name by RFC 7986). Times are in UTC, which every calendar shows in
/// its own zone.
std::string icalendar(const CalendarFile& file);

}  // namespace blankwright
