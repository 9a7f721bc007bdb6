#pragma once

#include <chrono>
#include <optional>

#include "diagnose/place.h"
#include "measure/instant.h"

namespace blankwright {

/// A day, or a time on it by the shop's clock.
struct DayOrTime {
  Date day{};
  std::optional<std::chrono::minutes> clock;  ///< since midnight
};

/// From when to when somebody is away or something cannot be used; a day alone counts whole, also the last.
struct SpanFacts {
  Given<DayOrTime> from, to;
  Place place;
};

/// The same as moments, from one up to but without the other. Valid where check_work() said nothing.
struct Span {
  Instant from, to;
};
Span span_of(const SpanFacts& facts, const Zone& zone);

}  // namespace blankwright
