#pragma once

#include <cmath>

#include "measure/instant.h"
#include "measure/quantity.h"

namespace blankwright {

/// Time by the clock from one moment to another; below 0 where `to` lies before `from`.
inline Duration between(Instant from, Instant to) { return static_cast<double>((to - from).count()) * second; }

/// The moment so much later, up to the next whole second.
inline Instant later(Instant at, Duration by) {
  return at + std::chrono::seconds{static_cast<std::chrono::seconds::rep>(std::ceil(by / second))};
}

}  // namespace blankwright
