#include "clock.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <ctime>
#include <mutex>
#include <stdexcept>

namespace calendar_rules {
namespace {

using std::chrono::days;
using std::chrono::floor;

Minutes ahead_at(Instant at) {
  const std::time_t seconds = std::chrono::sys_seconds{at}.time_since_epoch().count();
  std::tm shown{};
  localtime_r(&seconds, &shown);
  return Minutes{shown.tm_gmtoff / 60};
}

int number_at(std::string_view text, std::size_t at, std::size_t digits) {
  int out = 0;
  const std::string_view part = text.size() >= at + digits ? text.substr(at, digits) : "";
  const auto [end, problem] = std::from_chars(part.data(), part.data() + part.size(), out);
  if (part.empty() || problem != std::errc{} || end != part.data() + digits)
    throw std::runtime_error{"no moment: " + std::string{text}};
  return out;
}

std::string minute_text(Instant shown, char between) {
  const auto day = floor<days>(shown);
  const long minute = (shown - day).count();
  return fmt::format("{}{}{:02}:{:02}", date_text(day), between, minute / 60, minute % 60);
}

}  // namespace

Minutes overlap(const Span& a, const Span& b) {
  return std::max(Minutes{0}, std::min(a.to, b.to) - std::max(a.from, b.from));
}

std::vector<Span> joined(std::vector<Span> spans) {
  std::ranges::sort(spans);
  std::vector<Span> out;
  for (const Span& one : spans) {
    if (one.from >= one.to) continue;
    if (!out.empty() && one.from <= out.back().to) {
      out.back().to = std::max(out.back().to, one.to);
    } else {
      out.push_back(one);
    }
  }
  return out;
}

std::vector<Span> without(const std::vector<Span>& spans, const std::vector<Span>& taken) {
  std::vector<Span> out;
  for (Span left : spans) {
    for (const Span& gone : joined(taken)) {
      if (overlap(left, gone) == Minutes{0}) continue;
      if (left.from < gone.from) out.push_back({left.from, gone.from});
      left.from = std::min(gone.to, left.to);
    }
    if (left.from < left.to) out.push_back(left);
  }
  return joined(std::move(out));
}

Zone::Zone(const std::string& name) {
  static std::mutex one_at_a_time;  // the C library knows one zone
  const std::scoped_lock lock{one_at_a_time};
  setenv("TZ", name.c_str(), 1);
  tzset();
  const Instant begin = Date{std::chrono::year{2026} / 1 / 1};
  const Instant end = Date{std::chrono::year{2036} / 1 / 1};
  offsets_.push_back({begin, ahead_at(begin)});
  for (Instant at = begin; at < end; at += days{1}) {
    if (ahead_at(at + days{1}) == offsets_.back().ahead) continue;
    Minutes before{0}, after = days{1};
    while (after - before > Minutes{1}) {
      const Minutes middle = (before + after) / 2;
      (ahead_at(at + middle) == offsets_.back().ahead ? before : after) = middle;
    }
    offsets_.push_back({at + after, ahead_at(at + after)});
  }
}

Minutes Zone::ahead_of_utc(Instant at) const {
  const auto later = std::ranges::upper_bound(offsets_, at, {}, &Since::at);
  return later == offsets_.begin() ? offsets_.front().ahead : std::prev(later)->ahead;
}

Date Zone::date_of(Instant at) const { return floor<days>(at + ahead_of_utc(at)); }

Instant Zone::at_clock(Date day, Minutes since_midnight) const {
  const Instant shown = day + since_midnight;
  std::vector<Instant> found;
  for (const Since& offset : offsets_) {
    const Instant at = shown - offset.ahead;
    if (ahead_of_utc(at) == offset.ahead) found.push_back(at);
  }
  if (found.empty()) throw std::runtime_error{"no such time by the clock: " + minute_text(shown, ' ')};
  return *std::ranges::min_element(found);
}

std::vector<Instant> Zone::changes() const {
  std::vector<Instant> all;
  for (std::size_t i = 1; i < offsets_.size(); ++i) all.push_back(offsets_.at(i).at);
  return all;
}

std::string Zone::date_text(Instant at) const { return calendar_rules::date_text(date_of(at)); }
std::string Zone::clock_text(Instant at) const { return minute_text(at + ahead_of_utc(at), ' '); }

std::string Zone::text(Instant at) const {
  const Minutes ahead = ahead_of_utc(at);
  const long minutes = std::abs(ahead.count());
  return fmt::format("{}:00{}{:02}:{:02}", minute_text(at + ahead, 'T'), ahead.count() < 0 ? '-' : '+', minutes / 60,
                     minutes % 60);
}

std::string date_text(Date day) {
  const std::chrono::year_month_day date{day};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::string utc_text(Instant at) { return minute_text(at, ' '); }

Told told_moment(std::string_view text) {
  const auto number = [&](std::size_t at, std::size_t digits) { return number_at(text, at, digits); };
  const Date day{std::chrono::year{number(0, 4)} / number(5, 2) / number(8, 2)};
  const Instant shown = day + Minutes{number(11, 2) * 60 + number(14, 2)};
  if (number(17, 2) != 0) throw std::runtime_error{"not on a whole minute: " + std::string{text}};
  if (text.ends_with('Z')) return {shown, Minutes{0}};
  const Minutes offset{number(20, 2) * 60 + number(23, 2)};
  const Minutes ahead = text.at(19) == '-' ? -offset : offset;
  return {shown - ahead, ahead};
}

}  // namespace calendar_rules
