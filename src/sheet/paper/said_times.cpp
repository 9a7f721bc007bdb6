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

}  // namespace

std::string moment_text(const Template& t, const Zone& zone, Instant instant) {
  return readable_text(local_time(zone, instant), words_from(t, Word::monday, 7), words_from(t, Word::january, 12));
}

std::string moment_text(const Dossier& d, Instant instant) {
  return moment_text(d.sheet_template, d.shop.zone.value, instant);
}

std::string date_text(const Dossier& d, Instant instant) {
  const Template& t = d.sheet_template;
  const Date date = date_of(d.shop.zone.value, instant);
  return fmt::format("{} {} {}", words_from(t, Word::monday, 7)[std::chrono::weekday{date}.iso_encoding() - 1],
                     static_cast<unsigned>(date.day()),
                     words_from(t, Word::january, 12)[static_cast<unsigned>(date.month()) - 1]);
}

std::string dated_text(const Template& t, const Zone& zone, Instant instant) {
  const LocalTime time = local_time(zone, instant);
  return fmt::format("{} {:02}:{:02}", weekday_text(t, time.date), time.hour, time.minute);
}

std::string dated_text(const Dossier& d, Instant instant) {
  return dated_text(d.sheet_template, d.shop.zone.value, instant);
}

std::string weekday_text(const Template& t, Date date) {
  const std::chrono::weekday day{date};
  return fmt::format("{} {}", words_from(t, Word::monday, 7)[day.iso_encoding() - 1], day_text(t, date));
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
  const auto months = words_from(t, Word::january, 12);
  return fmt::format("{} {} {}", static_cast<unsigned>(date.day()), months[static_cast<unsigned>(date.month()) - 1],
                     static_cast<int>(date.year()));
}

}  // namespace blankwright
