#pragma once

#include <array>
#include <string>
#include <vector>

namespace simulated {

struct Station {
  double at_mm = 0;  ///< from the seat
  double diameter_mm = 0;
  bool operator==(const Station&) const = default;
};

/// A smooth form through these stations, as stations a millimetre apart: cubics that rise and fall with them and do
/// not go beyond. Source: Fritsch and Butland 1984. Other monotone cubics differ from these by about
/// smooth_error_mm.
std::vector<Station> smoothed(const std::vector<Station>& stations);
inline constexpr double smooth_error_mm = 0.1;
/// Diameter of the form at a place, by straight lines between the stations.
double diameter_at_mm(const std::vector<Station>& stations, double at_mm);
double largest_diameter_mm(const std::vector<Station>& stations);

/// Where the axis of a bore runs: past the middle of the blank at the seat, and leaning inside the wood. Direction 0
/// is towards face 1, direction 1 towards face 2; faces 3 and 4 lie opposite.
struct Axis {
  std::array<double, 2> offset_mm{};          ///< from the middle, at the seat
  std::array<double, 2> lean_mm_per_100mm{};  ///< how it moves with every 100 mm into the wood
};

struct SquaredWood {
  double width_mm = 0;           ///< between faces 1 and 3
  double depth_mm = 0;           ///< between faces 2 and 4
  double bow_mm = 0;             ///< by which a face dents in at most, half-way along
  double round_diameter_mm = 0;  ///< of a blank rounded between centres; 0: still square
};

/// Wood that is left between form and surface at the tightest place; below 0 the form lies outside. A square has four
/// faces; of a rounded blank every direction counts. Source: geometry.
double clear_mm(const std::vector<Station>& stations, const Axis& axis, const SquaredWood& wood);

}  // namespace simulated
