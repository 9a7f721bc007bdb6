#pragma once

#include <compare>
#include <string>
#include <string_view>

namespace simulated {

/// A minute. The simulated shops live by Central European Time, whose clocks are put forward and back while they do.
struct Moment {
  long minutes = 0;  ///< since the beginning of 1970, UTC
  auto operator<=>(const Moment&) const = default;
};

inline Moment after(Moment from, double hours) { return {from.minutes + static_cast<long>(hours * 60 + 0.5)}; }
inline double hours_between(Moment from, Moment to) { return static_cast<double>(to.minutes - from.minutes) / 60; }

Moment moment_of(int year, int month, int day, int hour, int minute);
/// "2027-05-03 08:00" anywhere in a text, the first one; minutes 0 where there is none.
Moment moment_in(std::string_view text);
std::string text(Moment moment);         ///< "2027-05-03 08:00", by the shop's clock as all that follows
std::string utc_text(Moment moment);     ///< the same for the machine's clock
std::string offset_text(Moment moment);  ///< "+02:00"
std::string date_text(Moment moment);    ///< "2027-05-03"

/// 0 is Monday.
int weekday(Moment moment);
/// Is somebody there? Monday to Friday, 8:00 to 17:00.
bool in_hours(Moment moment);
/// The moment itself where somebody is there, else when the next one comes.
Moment when_somebody_is_there(Moment moment);
/// At that hour on the same day.
Moment at_hour(Moment day, int hour);
/// At that hour on the first working day after the day of `from`.
Moment next_workday(Moment from, int hour);

}  // namespace simulated
