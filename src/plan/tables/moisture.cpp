#include "plan/tables/moisture.h"

#include <cmath>

#include "diagnose/failure.h"

namespace blankwright {

Share equilibrium_moisture(Temperature air, Share humidity) {
  BW_EXPECT(humidity >= Share{} && humidity <= whole);
  const double t = (air - ice_point) / kelvin;
  const double w = 349 + 1.29 * t + 0.0135 * t * t;
  const double k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  const double k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  const double k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  const double kh = k * (humidity / whole);
  const double bound = (k1 * kh + 2 * k1 * k2 * kh * kh) / (1 + k1 * kh + k1 * k2 * kh * kh);
  return 1800 / w * (kh / (1 - kh) + bound) * percent;
}

double moisture_slower(Temperature slow, Temperature fast) {
  constexpr double energy = 35000;  // J/mol
  constexpr double gas = 8.314;     // J/(mol K)
  const double inverse = kelvin / (slow - Temperature{}) - kelvin / (fast - Temperature{});
  return std::exp(energy / gas * inverse);
}

}  // namespace blankwright
