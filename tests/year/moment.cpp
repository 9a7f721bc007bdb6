#include "moment.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>

namespace simulated {
namespace {

constexpr long day_minutes = 24 * 60;

std::chrono::year_month_day date_of(Moment moment) {
  return std::chrono::sys_days{std::chrono::days{moment.minutes / day_minutes}};
}

bool number_at(std::string_view text, std::size_t at, std::size_t digits, int& out) {
  const std::string_view part = text.substr(at, digits);
  const auto [end, problem] = std::from_chars(part.data(), part.data() + part.size(), out);
  return problem == std::errc{} && end == part.data() + digits;
}

}  // namespace

Moment moment_of(int year, int month, int day, int hour, int minute) {
  const std::chrono::sys_days date{std::chrono::year{year} / month / day};
  return {date.time_since_epoch().count() * day_minutes + hour * 60 + minute};
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

std::string date_text(Moment moment) {
  const auto date = date_of(moment);
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::string text(Moment moment) {
  const long minute = moment.minutes % day_minutes;
  return fmt::format("{} {:02}:{:02}", date_text(moment), minute / 60, minute % 60);
}

int weekday(Moment moment) {
  return static_cast<int>((moment.minutes / day_minutes + 3) % 7);  // 1 January 1970 was a Thursday
}

bool in_hours(Moment moment) {
  const long minute = moment.minutes % day_minutes;
  return weekday(moment) < 5 && minute >= 8 * 60 && minute < 17 * 60;
}

Moment when_somebody_is_there(Moment moment) {
  if (in_hours(moment)) return moment;
  const bool before_work = weekday(moment) < 5 && moment.minutes % day_minutes < 8 * 60;
  if (before_work) return {moment.minutes / day_minutes * day_minutes + 8 * 60};
  return next_workday(moment, 8);
}

Moment next_workday(Moment from, int hour) {
  Moment next{(from.minutes / day_minutes + 1) * day_minutes + hour * 60};
  while (weekday(next) > 4) next.minutes += day_minutes;
  return next;
}

}  // namespace simulated
