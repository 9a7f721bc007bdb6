#include "moment.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>

namespace simulated {
namespace {

constexpr long day_minutes = 24 * 60;

/// 01:00 UTC of a month's last Sunday, when clocks are changed: directive 2000/84/EC.
long change(std::chrono::year year, std::chrono::month month) {
  const std::chrono::sys_days day{year / month / std::chrono::Sunday[std::chrono::last]};
  return day.time_since_epoch().count() * day_minutes + 60;
}

long ahead_of_utc(Moment moment) {
  const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{moment.minutes / day_minutes}}};
  const bool summer = moment.minutes >= change(date.year(), std::chrono::March) &&
                      moment.minutes < change(date.year(), std::chrono::October);
  return summer ? 120 : 60;
}

/// What the shop's clock shows, as if it were UTC.
long shown(Moment moment) { return moment.minutes + ahead_of_utc(moment); }

Moment by_clock(long shown_minutes) {
  const Moment winter{shown_minutes - 60};
  return ahead_of_utc(winter) == 60 ? winter : Moment{shown_minutes - 120};
}

std::string text_of(long minutes) {
  const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{minutes / day_minutes}}};
  const long minute = minutes % day_minutes;
  return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), minute / 60,
                     minute % 60);
}

bool number_at(std::string_view text, std::size_t at, std::size_t digits, int& out) {
  const std::string_view part = text.substr(at, digits);
  const auto [end, problem] = std::from_chars(part.data(), part.data() + part.size(), out);
  return problem == std::errc{} && end == part.data() + digits;
}

}  // namespace

Moment moment_of(int year, int month, int day, int hour, int minute) {
  const std::chrono::sys_days date{std::chrono::year{year} / month / day};
  return by_clock(date.time_since_epoch().count() * day_minutes + hour * 60 + minute);
}

Moment moment_in(std::string_view text) {
  for (std::size_t at = 0; at + 16 <= text.size(); ++at) {
    int year = 0, month = 0, day = 0, hour = 0, minute = 0;
    if (text[at + 4] == '-' && text[at + 7] == '-' && text[at + 13] == ':' && number_at(text, at, 4, year) &&
        number_at(text, at + 5, 2, month) && number_at(text, at + 8, 2, day) && number_at(text, at + 11, 2, hour) &&
        number_at(text, at + 14, 2, minute))
      return moment_of(year, month, day, hour, minute);
  }
  return {};
}

std::string text(Moment moment) { return text_of(shown(moment)); }
std::string utc_text(Moment moment) { return text_of(moment.minutes); }
std::string date_text(Moment moment) { return text(moment).substr(0, 10); }
std::string offset_text(Moment moment) { return fmt::format("+{:02}:00", ahead_of_utc(moment) / 60); }

int weekday(Moment moment) {
  return static_cast<int>((shown(moment) / day_minutes + 3) % 7);  // 1 January 1970 was a Thursday
}

bool in_hours(Moment moment) {
  const long minute = shown(moment) % day_minutes;
  return weekday(moment) < 5 && minute >= 8 * 60 && minute < 17 * 60;
}

Moment when_somebody_is_there(Moment moment) {
  if (in_hours(moment)) return moment;
  const bool before_work = weekday(moment) < 5 && shown(moment) % day_minutes < 8 * 60;
  if (before_work) return at_hour(moment, 8);
  return next_workday(moment, 8);
}

Moment at_hour(Moment day, int hour) { return by_clock(shown(day) / day_minutes * day_minutes + hour * 60); }

Moment next_workday(Moment from, int hour) {
  long next = (shown(from) / day_minutes + 1) * day_minutes + hour * 60;
  while (weekday(by_clock(next)) > 4) next += day_minutes;
  return by_clock(next);
}

}  // namespace simulated
