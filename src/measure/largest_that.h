#pragma once

#include <numeric>

namespace blankwright {

/// The largest number for which `holds`, where that holds of `low` and of every number up to some one, and never from
/// `beyond` on.
template <class Holds>
int largest_that(int low, int beyond, const Holds& holds) {
  while (beyond - low > 1) {
    const int middle = std::midpoint(low, beyond);
    (holds(middle) ? low : beyond) = middle;
  }
  return low;
}

}  // namespace blankwright
