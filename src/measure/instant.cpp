#include "measure/instant.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <stdexcept>

#include <date/tz.h>
#include <fmt/format.h>

#include "measure/nearest.h"
#include "measure/utf8.h"

namespace blankwright {

static_assert(USE_OS_TZDB, "link date::date-tz, which says so: otherwise the library reads the wrong zones");

using std::chrono::days;
using std::chrono::floor;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;
using std::chrono::sys_days;

namespace {

/// Also what the zone's name ends in, because people type the town: "Berlin" for "Europe/Berlin".
std::vector<std::string> zones_like(std::string_view typed, const std::vector<date::time_zone>& zones) {
  std::vector<std::string> names;
  std::vector<std::string> towns;
  for (const date::time_zone& zone : zones) {
    if (zone.name() == "localtime") continue;
    names.push_back(zone.name());
    towns.push_back(zone.name().substr(zone.name().rfind('/') + 1));
  }
  std::vector<std::string> nearest = nearest_names(typed, names, 3);
  for (const std::string& town : nearest_names(typed, towns, 1)) {
    const std::string& name = names.at(static_cast<std::size_t>(std::ranges::find(towns, town) - towns.begin()));
    if (std::ranges::find(nearest, name) == nearest.end()) nearest.push_back(name);
  }
  return nearest;
}

/// Reads exactly `count` digits at the front of `rest` and takes them off.
std::optional<unsigned> take_digits(std::string_view& rest, std::size_t count) {
  if (rest.size() < count) return std::nullopt;
  unsigned value = 0;
  const char* const end = rest.data() + count;
  const auto [stop, error] = std::from_chars(rest.data(), end, value);
  if (error != std::errc{} || stop != end) return std::nullopt;
  rest.remove_prefix(count);
  return value;
}

bool take(std::string_view& rest, std::string_view any_of) {
  if (rest.empty() || any_of.find(rest.front()) == std::string_view::npos) return false;
  rest.remove_prefix(1);
  return true;
}

/// Year, month and day as written, whether or not there is such a day.
std::optional<Date> take_date(std::string_view& rest) {
  const auto year = take_digits(rest, 4);
  if (!year || !take(rest, "-")) return std::nullopt;
  const auto month = take_digits(rest, 2);
  if (!month || !take(rest, "-")) return std::nullopt;
  const auto day = take_digits(rest, 2);
  if (!day) return std::nullopt;
  return Date{std::chrono::year{static_cast<int>(*year)}, std::chrono::month{*month}, std::chrono::day{*day}};
}

/// The years that a date may be of.
struct Years {
  int first, last;
};
constexpr Years known_years{Zone::first_year, Zone::last_year};

std::optional<TimeFault> fault_of(Date date, Years years = known_years) {
  const int year = static_cast<int>(date.year());
  if (!date.month().ok() || unsigned{date.day()} == 0) return TimeFault{"no such date", ""};
  if (!date.ok()) return TimeFault{"no such date", text(Date{date.year() / date.month() / std::chrono::last})};
  if (year < years.first || year > years.last) {
    return TimeFault{
        fmt::format("year {} is outside {} to {}, for which the time zones are known", year, years.first, years.last),
        ""};
  }
  return std::nullopt;
}

/// `08:30`, `08:30:15`, `08:30:15.25`
std::optional<seconds> take_time_of_day(std::string_view& rest) {
  const auto hour = take_digits(rest, 2);
  if (!hour || !take(rest, ":")) return std::nullopt;
  const auto minute = take_digits(rest, 2);
  if (!minute || *hour > 23 || *minute > 59) return std::nullopt;
  std::optional<unsigned> second = 0;
  if (take(rest, ":")) {
    second = take_digits(rest, 2);
    if (!second || *second > 59) return std::nullopt;
    if (take(rest, ".")) {
      if (!take_digits(rest, 1)) return std::nullopt;
      while (take(rest, "0123456789")) continue;
    }
  }
  return hours{*hour} + minutes{*minute} + seconds{*second};
}

/// `Z`, `+01:00`
std::optional<minutes> take_offset(std::string_view& rest) {
  if (take(rest, "Zz")) return minutes{0};
  const bool west = rest.starts_with('-');
  if (!take(rest, "+-")) return std::nullopt;
  const auto hour = take_digits(rest, 2);
  if (!hour || !take(rest, ":")) return std::nullopt;
  const auto minute = take_digits(rest, 2);
  if (!minute || *hour > 23 || *minute > 59) return std::nullopt;
  const minutes offset = hours{*hour} + minutes{*minute};
  return west ? -offset : offset;
}

constexpr std::array<std::string_view, 7> weekday_names{"monday", "tuesday",  "wednesday", "thursday",
                                                        "friday", "saturday", "sunday"};

/// The weekday, Monday 0, that a name in lower case or its first three letters stand for.
std::optional<int> weekday_named(std::string_view name) {
  for (std::size_t day = 0; day < weekday_names.size(); ++day) {
    const std::string_view whole = weekday_names.at(day);
    if (name == whole || name == whole.substr(0, 3)) return static_cast<int>(day);
  }
  return std::nullopt;
}

struct DayName {
  std::string_view name;
  int from_today;
};
constexpr std::array<DayName, 3> day_names{{{"yesterday", -1}, {"today", 0}, {"tomorrow", 1}}};

/// The day that has that weekday: today, or else the nearest on the side meant.
Date day_named(int weekday, const LocalTime& today, NamedFrom::Days side) {
  const int since = (static_cast<int>(today.weekday) - weekday + 7) % 7;
  const sys_days day{today.date};
  return Date{side == NamedFrom::Days::back ? day - days{since} : day + days{(7 - since) % 7}};
}

/// The day that a word in lower case means.
std::optional<Date> day_meant(std::string_view word, const LocalTime& today, NamedFrom::Days side) {
  const auto* const named = std::ranges::find(day_names, word, &DayName::name);
  if (named != day_names.end()) return Date{sys_days{today.date} + days{named->from_today}};
  const auto weekday = weekday_named(word);
  return weekday ? std::optional{day_named(*weekday, today, side)} : std::nullopt;
}

/// That day, where no time of it is named.
Instant day_alone(Date date, const LocalTime& today, const NamedFrom& from) {
  if (date == today.date) return from.now;
  const bool is_back = from.days == NamedFrom::Days::back;
  return instant_of(from.zone, date, is_back ? hours{today.hour} + minutes{today.minute} : minutes{0});
}

/// The letters that a text begins with, in lower case.
std::string leading_word(std::string_view text) {
  const std::string lower = ascii_lower(text);
  return lower.substr(0, lower.find_first_not_of("abcdefghijklmnopqrstuvwxyz"));
}

/// `word`: what should have been a day's name, at the front; empty for none.
TimeFault no_moment_named(std::string_view text, std::string_view word) {
  std::vector<std::string> names{weekday_names.begin(), weekday_names.end()};
  for (const DayName& day : day_names) names.emplace_back(day.name);
  const auto meant = word.empty() ? std::vector<std::string>{} : nearest_names(word, names, 1);
  return {fmt::format("\"{}\" is no moment", text.substr(0, 40)),
          meant.empty() ? "13:30, \"friday 13:30\", \"yesterday 13:30\", \"2027-05-04 13:30\", a day alone (friday, "
                          "2027-05-04) or 2027-05-04T13:30:00+02:00"
                        : fmt::format("\"{}{}\"", meant.front(), text.substr(word.size()))};
}

const std::vector<date::time_zone>& zones_of_machine() {
  const std::string none = "this machine has no time zone data: install tzdata (it belongs in /usr/share/zoneinfo)";
  try {
    const std::vector<date::time_zone>& zones = date::get_tzdb().zones;
    if (zones.empty()) throw NoZoneData{none};
    return zones;
  } catch (const NoZoneData&) {
    throw;
  } catch (const std::runtime_error&) {  // the library found no folder of them
    throw NoZoneData{none};
  }
}

std::string with_single_spaces(std::string_view typed) {
  std::string out;
  for (const char c : typed) {
    if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
  }
  if (out.ends_with(' ')) out.pop_back();
  return out;
}

TimeFault not_a_moment() {
  return {"not a moment: date, time and offset belong here, as in 2027-01-29T08:30:00+01:00", ""};
}

TimeFault offset_missing(const Zone& shop, Date date, seconds since_midnight) {
  const Instant meant = instant_of(shop, date, floor<minutes>(since_midnight)) + since_midnight % minutes{1};
  return {"a time without its offset from UTC", local_text(shop, meant)};
}

}  // namespace

const std::string& Zone::name() const {
  static const std::string utc = "UTC";
  return zone_ ? zone_->name() : utc;
}

tl::expected<Zone, UnknownZone> find_zone(std::string_view name) {
  const std::vector<date::time_zone>& zones = zones_of_machine();
  const auto found = std::ranges::find_if(zones, [&](const date::time_zone& zone) { return zone.name() == name; });
  if (found == zones.end() || name == "localtime") return tl::unexpected{UnknownZone{zones_like(name, zones)}};
  try {
    found->get_info(date::sys_seconds{});  // reads its file, which is not read again
  } catch (const std::runtime_error&) {
    throw NoZoneData{
        fmt::format("this machine's data of the time zone {} cannot be read: install tzdata anew", name)};
  }
  Zone zone;
  zone.zone_ = &*found;
  return zone;
}

LocalTime local_time(const Zone& zone, Instant instant) {
  const seconds exact = zone.zone_ ? zone.zone_->get_info(instant).offset : seconds{0};
  const minutes offset = floor<minutes>(exact);
  const Instant shown = instant + offset;
  const sys_days day = floor<days>(shown);
  const std::chrono::hh_mm_ss clock{shown - day};
  return {.date = Date{day},
          .weekday = std::chrono::weekday{day}.iso_encoding() - 1,
          .hour = static_cast<unsigned>(clock.hours().count()),
          .minute = static_cast<unsigned>(clock.minutes().count()),
          .second = static_cast<unsigned>(clock.seconds().count()),
          .offset = offset};
}

Date date_of(const Zone& zone, Instant instant) { return local_time(zone, instant).date; }

Instant instant_of(const Zone& zone, Date date, minutes since_midnight) {
  const Instant as_if_utc = sys_days{date} + since_midnight;
  if (!zone.zone_) return as_if_utc;
  const auto info = zone.zone_->get_info(date::local_seconds{as_if_utc.time_since_epoch()});
  if (info.result == date::local_info::nonexistent) return info.second.begin;
  return as_if_utc - info.first.offset;
}

std::string local_text(const Zone& zone, Instant instant) {
  return local_text(instant, local_time(zone, instant).offset);
}

std::string local_text(Instant instant, minutes offset) {
  const LocalTime t = local_time(Zone{}, instant + offset);
  const auto away = std::chrono::abs(offset).count();
  return fmt::format("{}T{:02}:{:02}:{:02}{}{:02}:{:02}", text(t.date), t.hour, t.minute, t.second,
                     offset < minutes{0} ? '-' : '+', away / 60, away % 60);
}

std::string clock_text(const Zone& zone, Instant instant) {
  const LocalTime t = local_time(zone, instant);
  return fmt::format("{} {:02}:{:02}", text(t.date), t.hour, t.minute);
}

std::string text(Date date) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), unsigned{date.month()},
                     unsigned{date.day()});
}

tl::expected<Date, TimeFault> parse_date(std::string_view given) {
  const auto date = take_date(given);
  if (!date || !given.empty()) {
    return tl::unexpected{TimeFault{"not a date: year, month and day belong here, as in 2027-01-29", ""}};
  }
  if (auto fault = fault_of(*date)) return tl::unexpected{*fault};
  return *date;
}

namespace {

/// A moment with its offset; `shop` is for hints, where there is one.
tl::expected<Instant, TimeFault> read_instant(std::string_view given, const Zone& shop, Years years) {
  const auto date = take_date(given);
  if (!date) return tl::unexpected{not_a_moment()};
  if (auto fault = fault_of(*date, years)) return tl::unexpected{*fault};
  if (given.empty()) {
    const TimeFault fault = offset_missing(shop, *date, hours{8});
    return tl::unexpected{TimeFault{"a date where a moment belongs", fault.hint}};
  }
  if (!take(given, "Tt ")) return tl::unexpected{not_a_moment()};
  const auto time = take_time_of_day(given);
  if (!time) return tl::unexpected{not_a_moment()};
  if (given.empty()) return tl::unexpected{offset_missing(shop, *date, *time)};
  const auto offset = take_offset(given);
  if (!offset || !given.empty()) return tl::unexpected{not_a_moment()};
  return sys_days{*date} + *time - *offset;
}

}  // namespace

tl::expected<Instant, TimeFault> parse_instant(std::string_view given, const Zone& shop) {
  auto instant = read_instant(given, shop, known_years);
  if (instant && !is_in_known_years(*instant)) {
    return tl::unexpected{TimeFault{"in some zones this moment lies outside the years for which they are known", ""}};
  }
  return instant;
}

tl::expected<Instant, TimeFault> parse_kept_instant(std::string_view given) {
  return read_instant(given, Zone{}, {1, 9999});
}

bool is_in_known_years(Instant instant) {
  constexpr days one{1};  // more than any zone is from UTC
  constexpr std::chrono::year first{Zone::first_year};
  constexpr std::chrono::year after{Zone::last_year + 1};
  return instant >= sys_days{first / 1 / 1} + one && instant < sys_days{after / 1 / 1} - one;
}

tl::expected<Instant, TimeFault> instant_shown(const Zone& zone, Date date, seconds since_midnight) {
  const Instant as_if_utc = sys_days{date} + since_midnight;
  if (!zone.zone_) return as_if_utc;
  const auto info = zone.zone_->get_info(date::local_seconds{as_if_utc.time_since_epoch()});
  if (info.result == date::local_info::unique) return as_if_utc - info.first.offset;
  const bool is_left_out = info.result == date::local_info::nonexistent;
  const std::array either{as_if_utc - info.first.offset, as_if_utc - info.second.offset};
  return tl::unexpected{
      TimeFault{fmt::format("the clock change {} {} {:02}:{:02}", is_left_out ? "leaves out" : "gives twice",
                            text(date), since_midnight / hours{1}, since_midnight % hours{1} / minutes{1}),
                fmt::format("{} or {}", local_text(zone, std::ranges::min(either)),
                            local_text(zone, std::ranges::max(either)))}};
}

tl::expected<Instant, TimeFault> read_moment(std::string_view typed, const NamedFrom& from) {
  const LocalTime today = local_time(from.zone, from.now);
  const std::string spaced = with_single_spaces(typed);
  const std::string_view text = spaced;
  std::string_view rest = text;
  Date date = today.date;
  std::string_view after_date = text;
  const auto dated = take_date(after_date);
  const std::string word = leading_word(text);
  if (dated) {
    if (auto fault = fault_of(*dated)) return tl::unexpected{*fault};
    date = *dated;
    rest = after_date;
  } else if (!word.empty()) {
    const auto day = day_meant(word, today, from.days);
    if (!day) return tl::unexpected{no_moment_named(text, word)};
    date = *day;
    rest.remove_prefix(word.size());
  }
  const bool says_day = rest.size() < text.size();
  if (says_day && rest.empty()) return day_alone(date, today, from);
  if (says_day && !take(rest, dated ? "Tt " : " ")) return tl::unexpected{no_moment_named(text, {})};
  const std::string clock = (rest.substr(0, 2).ends_with(':') ? "0" : "") + std::string{rest};  // 8:30
  std::string_view left = clock;
  const auto time = take_time_of_day(left);
  if (time && left.empty()) return instant_shown(from.zone, date, *time);
  const auto exact = parse_instant(dated ? fmt::format("{}T{}", blankwright::text(date), clock) : spaced, from.zone);
  if (!exact) return tl::unexpected{parse_kept_instant(text) ? exact.error() : no_moment_named(text, {})};
  return *exact;
}

}  // namespace blankwright
