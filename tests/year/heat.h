#pragma once

#include <functional>
#include <vector>

namespace simulated {

/// A blank in the oven, as nature sees it: wood and resin mixed.
struct HeatedBlank {
  double section_mm = 45;
  double length_mm = 128;
  double density_kg_m3 = 950;
  double capacity_J_kgK = 1400;
  double across_W_mK = 0.17;
  double along_W_mK = 0.33;
  double film_W_m2K = 20;  ///< of the air at its place in the oven
  double start_C = 20;
};

/// Temperature of the core, minute by minute from the moment it goes in; the air's temperature is asked for at each
/// minute. Explicit finite differences over an eighth of the blank, its three planes of symmetry being free of flow.
/// Resin's own heat is left out: it only warms.
std::vector<double> core_by_minute_C(const HeatedBlank& blank, const std::function<double(double minute)>& air_C,
                                     int minutes);

/// The warmest temperature that was not left for as long as `hold_minutes`; the start's where the time was too short.
double held_C(const std::vector<double>& core_C, int hold_minutes);

}  // namespace simulated
