#include "form.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace simulated {

std::vector<Station> smoothed(const std::vector<Station>& stations) {
  const std::size_t last = stations.size() - 1;
  const auto length = [&](std::size_t i) { return stations[i + 1].at_mm - stations[i].at_mm; };
  const auto slope = [&](std::size_t i) {
    return (stations[i + 1].diameter_mm - stations[i].diameter_mm) / length(i);
  };
  std::vector<double> slopes(stations.size());
  slopes.front() = slope(0);
  slopes.back() = slope(last - 1);
  for (std::size_t i = 1; i < last; ++i) {
    const double before = slope(i - 1), behind = slope(i);
    const double share = (1 + length(i) / (length(i - 1) + length(i))) / 3;
    slopes[i] = before * behind <= 0 ? 0 : before * behind / (share * behind + (1 - share) * before);
  }
  std::vector<Station> out;
  for (std::size_t i = 0; i < last; ++i) {
    for (double at_mm = 0; at_mm < length(i); at_mm += 1) {
      const double t = at_mm / length(i);
      const double diameter_mm =
          (1 + 2 * t) * (1 - t) * (1 - t) * stations[i].diameter_mm + t * (1 - t) * (1 - t) * length(i) * slopes[i] +
          t * t * (3 - 2 * t) * stations[i + 1].diameter_mm - t * t * (1 - t) * length(i) * slopes[i + 1];
      out.push_back({stations[i].at_mm + at_mm, diameter_mm});
    }
  }
  out.push_back(stations.back());
  return out;
}

double diameter_at_mm(const std::vector<Station>& stations, double at_mm) {
  for (std::size_t i = 1; i < stations.size(); ++i) {
    const Station& before = stations[i - 1];
    const Station& behind = stations[i];
    if (at_mm <= behind.at_mm) {
      const double share = (at_mm - before.at_mm) / (behind.at_mm - before.at_mm);
      return before.diameter_mm + share * (behind.diameter_mm - before.diameter_mm);
    }
  }
  return stations.back().diameter_mm;
}

double largest_diameter_mm(const std::vector<Station>& stations) {
  return std::ranges::max_element(stations, {}, &Station::diameter_mm)->diameter_mm;
}

double clear_mm(const std::vector<Station>& stations, const Axis& axis, const SquaredWood& wood) {
  const double length_mm = stations.back().at_mm;
  double least_mm = 1000;
  for (double at_mm = 0; at_mm <= length_mm; at_mm += 0.5) {
    const double radius_mm = diameter_at_mm(stations, at_mm) / 2;
    const double one_mm = axis.offset_mm[0] + axis.lean_mm_per_100mm[0] * at_mm / 100;
    const double two_mm = axis.offset_mm[1] + axis.lean_mm_per_100mm[1] * at_mm / 100;
    if (wood.round_diameter_mm > 0) {
      least_mm = std::min(least_mm, wood.round_diameter_mm / 2 - std::hypot(one_mm, two_mm) - radius_mm);
    } else {
      const double dent_mm = wood.bow_mm * std::sin(std::numbers::pi * at_mm / length_mm);
      least_mm = std::min(least_mm, wood.width_mm / 2 - std::abs(one_mm) - radius_mm - dent_mm);
      least_mm = std::min(least_mm, wood.depth_mm / 2 - std::abs(two_mm) - radius_mm - dent_mm);
    }
  }
  return least_mm;
}

}  // namespace simulated
