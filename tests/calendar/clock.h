#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

namespace calendar_rules {

using Minutes = std::chrono::minutes;
using Instant = std::chrono::sys_time<Minutes>;
using Date = std::chrono::sys_days;  ///< of the shop's clock

struct Span {
  Instant from, to;
  auto operator<=>(const Span&) const = default;
  Minutes length() const { return to - from; }
};

/// What two spans have in common lasts so long.
Minutes overlap(const Span& a, const Span& b);
/// In order, with those joined that touch or overlap, and without those that last no time.
std::vector<Span> joined(std::vector<Span> spans);
/// The first without what lies in the second.
std::vector<Span> without(const std::vector<Span>& spans, const std::vector<Span>& taken);

/// The clock of a place, as the C library reads it from the machine's time-zone data.
class Zone {
 public:
  explicit Zone(const std::string& name);

  Minutes ahead_of_utc(Instant at) const;
  Date date_of(Instant at) const;
  /// When the clock shows so much since midnight: the first time, where it does twice.
  Instant at_clock(Date day, Minutes since_midnight) const;
  /// When the clock is changed, between 2026 and 2036.
  std::vector<Instant> changes() const;
  std::string date_text(Instant at) const;   ///< "2027-05-03"
  std::string clock_text(Instant at) const;  ///< "2027-05-03 08:00"
  std::string text(Instant at) const;        ///< RFC 3339

 private:
  struct Since {
    Instant at;
    Minutes ahead;
  };
  std::vector<Since> offsets_;
};

std::string date_text(Date day);
std::string utc_text(Instant at);  ///< "2027-05-03 06:00"

/// "2027-05-03T08:00:00+02:00". Throws std::runtime_error where it is none, or has seconds.
struct Told {
  Instant at;
  Minutes ahead;
};
Told told_moment(std::string_view text);

}  // namespace calendar_rules
