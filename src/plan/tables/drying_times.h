#pragma once

#include <span>

#include "measure/quantity.h"

namespace blankwright {

/// Up to that thickness a blank of air-dried wood is oven-dry after that time, its ends open.
struct UsualDryingTime {
  Length thickness;
  Duration time;
};

/// Rising. Common practice, no source: 24 h for the usual blank, thicker ones by the square of the thickness, thin
/// ones overnight all the same; two weighings decide.
std::span<const UsualDryingTime> usual_drying_times();

/// The oven's air for which they hold: that of the oven-dry test, EN 13183-1 and ASTM D4442.
inline constexpr Temperature usual_drying_oven = celsius(103);

}  // namespace blankwright
