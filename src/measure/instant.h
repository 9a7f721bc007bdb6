#pragma once

#include <chrono>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

namespace date {
class time_zone;  // of the date library, which instant.cpp alone includes
}

namespace blankwright {

using Instant = std::chrono::sys_seconds;  ///< a moment, the same everywhere
using Date = std::chrono::year_month_day;  ///< a day in somebody's calendar, without a zone

struct UnknownZone;
struct LocalTime;
struct TimeFault;

/// A time zone by its IANA name. Small, copied freely, and read by several threads at once without harm. One made
/// without a name is UTC.
///
/// Good for the years first_year to last_year: the zone files list every clock change up to 2037 and only a rule for
/// those after, which the library does not read.
class Zone {
 public:
  Zone() = default;
  const std::string& name() const;
  friend bool operator==(const Zone&, const Zone&) = default;

  static constexpr int first_year = 1970;
  static constexpr int last_year = 2037;

 private:
  friend tl::expected<Zone, UnknownZone> find_zone(std::string_view name);
  friend LocalTime local_time(const Zone& zone, Instant instant);
  friend Instant instant_of(const Zone& zone, Date date, std::chrono::minutes since_midnight);
  friend tl::expected<Instant, TimeFault> instant_shown(const Zone& zone, Date date,
                                                        std::chrono::seconds since_midnight);

  const date::time_zone* zone_ = nullptr;  // null: UTC; else it lives as long as the program
};

/// The machine has no time zone data.
class NoZoneData : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// No zone has that name.
struct UnknownZone {
  std::vector<std::string> nearest;  ///< names that may have been meant, the likeliest first; may be empty
};

/// The zone with exactly that IANA name: "Europe/Berlin". `localtime`, which would be another zone on another
/// machine, is not a name. The first call takes some milliseconds, a later one microseconds.
/// Throws NoZoneData where the machine has none at all, or the zone's own cannot be read.
tl::expected<Zone, UnknownZone> find_zone(std::string_view name);

/// What clock and calendar in a zone show at an instant.
struct LocalTime {
  Date date;
  unsigned weekday = 0;  ///< Monday 0 to Sunday 6
  unsigned hour = 0;
  unsigned minute = 0;
  unsigned second = 0;
  std::chrono::minutes offset{};  ///< of the zone from UTC, east positive; whole minutes
};
LocalTime local_time(const Zone& zone, Instant instant);

/// The day that the zone's calendar shows.
Date date_of(const Zone& zone, Instant instant);

/// When the zone's clock shows that many minutes since midnight (0 to 1440, which is the next day's midnight) on that
/// day. A time that the spring change leaves out is the first instant after the gap; of a time that the autumn change
/// gives twice, the first.
Instant instant_of(const Zone& zone, Date date, std::chrono::minutes since_midnight);

/// "2027-01-29T08:30:00+01:00" (RFC 3339).
std::string local_text(const Zone& zone, Instant instant);
/// The same with an offset from UTC in place of a zone.
std::string local_text(Instant instant, std::chrono::minutes offset = {});

/// "2027-01-29 08:30": the zone's clock, for people who are there.
std::string clock_text(const Zone& zone, Instant instant);

/// "2027-01-29" (ISO 8601).
std::string text(Date date);

/// Why a text is not a date or not a moment.
struct TimeFault {
  std::string message;  ///< "no such date"
  std::string hint;     ///< text that can be pasted in its place, or empty
};

/// Reads a date of ISO 8601 in full: `2027-01-29`, within the years of Zone.
tl::expected<Date, TimeFault> parse_date(std::string_view text);

/// When the zone's clock shows that time of the day. A time that a clock change leaves out, or gives twice, is
/// refused; the hint has both moments that may be meant.
tl::expected<Instant, TimeFault> instant_shown(const Zone& zone, Date date, std::chrono::seconds since_midnight);

/// Reads a moment of RFC 3339: `2027-01-29T08:30:00+01:00` or `…Z`; the seconds may be left out, a fraction of a
/// second is dropped, leap seconds are not known. A time without offset is refused, because it would mean another
/// moment in another place: the hint gives it the offset that the shop's zone has then.
tl::expected<Instant, TimeFault> parse_instant(std::string_view text, const Zone& shop);

/// The same of a moment that was kept: with its offset, and in any year from 1 to 9999, since the clock that it is of
/// may have been wrong.
tl::expected<Instant, TimeFault> parse_kept_instant(std::string_view text);

/// Does a day in any zone at that moment lie in the years of Zone?
bool is_in_known_years(Instant instant);

/// Where and when somebody names a moment, and on which side of it a weekday lies that is named.
struct NamedFrom {
  enum class Days { back, ahead };  ///< today, or else the last such day, or the next one
  const Zone& zone;
  Instant now;
  Days days;
};

/// Reads a moment as people name it, by the zone's clock: `13:30` (of today), `2027-05-04 13:30`, `friday 13:30`,
/// `fri 13:30`, `yesterday 13:30`, or with an offset as RFC 3339 has it, which is then not looked at from anywhere. A
/// day alone is the time that it is now, on that day; where days lie ahead it is that day's beginning, and today it
/// is now. Several spaces are one. A clock change is as for instant_shown().
tl::expected<Instant, TimeFault> read_moment(std::string_view text, const NamedFrom& from);

}  // namespace blankwright
