#pragma once

#include <chrono>

#include "entries/blank_state.h"

namespace blankwright {

/// The moment from which the gates' tests count hours.
inline constexpr Instant monday{std::chrono::seconds{1'800'000'000}};

/// The first blank of an order.
inline BlankState begun() {
  BlankState blank;
  blank.id = BlankId::nth(0);
  blank.order = blank.promised = "T-1";
  return blank;
}

}  // namespace blankwright
