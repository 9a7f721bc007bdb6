#pragma once

#include <chrono>
#include <cmath>

#include "measure/instant.h"
#include "measure/quantity.h"

namespace blankwright {

/// A span of the clock's or the calendar's time as a quantity.
template <class Count, class Unit>
Duration duration_of(std::chrono::duration<Count, Unit> span) {
  return std::chrono::duration<double>{span}.count() * second;
}

/// Time by the clock from one moment to another; below 0 where `to` lies before `from`.
inline Duration between(Instant from, Instant to) { return duration_of(to - from); }

/// The moment so much later, up to the next whole second.
inline Instant later(Instant at, Duration by) {
  return at + std::chrono::seconds{static_cast<std::chrono::seconds::rep>(std::ceil(by / second))};
}

}  // namespace blankwright
