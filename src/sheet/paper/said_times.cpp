#include "sheet/paper/said_times.h"

#include <fmt/format.h>

#include <cmath>
#include <span>

#include "measure/elapsed.h"
#include "measure/quantity_text.h"
#include "sheet/paper/limits.h"

namespace blankwright {
namespace {

std::span<const std::string> words_from(const Template& t, Word first, std::size_t count) {
  return std::span{t.words.words}.subspan(static_cast<std::size_t>(first), count);
}

std::string weekday_of(const Template& t, Date date) {
  return words_from(t, Word::monday, 7)[std::chrono::weekday{date}.iso_encoding() - 1];
}

/// "25 Jan".
std::string day_and_month(const Template& t, Date date) {
  return fmt::format("{}{} {}", static_cast<unsigned>(date.day()), t.spelling.after_day,
                     words_from(t, Word::january, 12)[static_cast<unsigned>(date.month()) - 1]);
}

}  // namespace

std::string moment_text(const Template& t, const Zone& zone, Instant instant) {
  const LocalTime time = local_time(zone, instant);
  return fmt::format("{} {} {:02}:{:02}", weekday_of(t, time.date), day_and_month(t, time.date), time.hour,
                     time.minute);
}

std::string moment_text(const Dossier& d, Instant instant) {
  return moment_text(d.sheet_template, d.shop.zone.value, instant);
}

std::string date_text(const Template& t, Date date) {
  return fmt::format("{} {}", weekday_of(t, date), day_and_month(t, date));
}

std::string date_text(const Dossier& d, Instant instant) {
  return date_text(d.sheet_template, date_of(d.shop.zone.value, instant));
}

std::string dated_text(const Template& t, const Zone& zone, Instant instant) {
  const LocalTime time = local_time(zone, instant);
  return fmt::format("{} {:02}:{:02}", weekday_text(t, time.date), time.hour, time.minute);
}

std::string dated_text(const Dossier& d, Instant instant) {
  return dated_text(d.sheet_template, d.shop.zone.value, instant);
}

std::string weekday_text(const Template& t, Date date) {
  return fmt::format("{} {}", weekday_of(t, date), day_text(t, date));
}

std::string late_text(const Template& t, std::chrono::minutes late_by) {
  using std::chrono::hours;
  constexpr hours day{24};
  if (late_by < 2 * day) return shown(t, printed(duration_of(late_by)));
  const Amount days{{fmt::format("{}", late_by / day)}, PrintedUnit::d};
  const Amount rest{{fmt::format("{}", (late_by % day) / hours{1})}, PrintedUnit::h};
  return shown(t, Printed{.amounts = {days, rest}});
}

Duration rounded_length(Duration length) {
  const Duration step = length < 2 * hour ? 5 * minute : 15 * minute;
  return std::ceil(length / step - 1e-9) * step;
}

std::string day_text(const Template& t, Date date) {
  return fmt::format("{} {}", day_and_month(t, date), static_cast<int>(date.year()));
}

}  // namespace blankwright
