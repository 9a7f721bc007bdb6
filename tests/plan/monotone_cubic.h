#pragma once

#include <utility>
#include <vector>

namespace blankwright {

/// The monotone piecewise cubic through (z, diameter), written down again from the paper: Fritsch and Butland, SIAM
/// J. Sci. Stat. Comput. 5 (1984) 300 (from memory): at an inner station the weighted harmonic mean of the
/// neighbouring secants, 0 where they differ in sign; at the ends the secant.
inline double monotone_cubic(const std::vector<std::pair<double, double>>& p, double z) {
  const auto secant = [&](std::size_t i) {
    return (p.at(i + 1).second - p.at(i).second) / (p.at(i + 1).first - p.at(i).first);
  };
  const auto slope = [&](std::size_t i) {
    if (i == 0) return secant(0);
    if (i + 1 == p.size()) return secant(i - 1);
    const double before = secant(i - 1);
    const double after = secant(i);
    if (before * after <= 0) return 0.0;
    const double h = p.at(i).first - p.at(i - 1).first;
    const double k = p.at(i + 1).first - p.at(i).first;
    return 3 * (h + k) / ((2 * k + h) / before + (k + 2 * h) / after);
  };
  std::size_t i = 0;
  while (i + 2 < p.size() && z > p.at(i + 1).first) ++i;
  const double h = p.at(i + 1).first - p.at(i).first;
  const double t = (z - p.at(i).first) / h;
  return (1 + 2 * t) * (1 - t) * (1 - t) * p.at(i).second + t * (1 - t) * (1 - t) * h * slope(i) +
         t * t * (3 - 2 * t) * p.at(i + 1).second + t * t * (t - 1) * h * slope(i + 1);
}

}  // namespace blankwright
