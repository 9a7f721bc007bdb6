#include "plan/tables/wood.h"

#include <algorithm>

#include "diagnose/failure.h"

namespace blankwright {

Share shrinkage_at(Share green_to_dry, Share moisture) {
  BW_EXPECT(green_to_dry >= Share{} && green_to_dry < whole);
  BW_EXPECT(moisture >= Share{});
  return (fibre_saturation - std::min(moisture, fibre_saturation)) / fibre_saturation * green_to_dry;
}

Share shrinkage_to_dry(Share green_to_dry, Share moisture) {
  const Share left_when_dry = whole - green_to_dry;
  const Share left_at_moisture = whole - shrinkage_at(green_to_dry, moisture);
  return whole - left_when_dry / left_at_moisture * whole;
}

double specific_gravity_at(double green, Share volumetric, Share moisture) {
  return green / ((whole - shrinkage_at(volumetric, moisture)) / whole);
}

double conductivity_across(double gravity, Share moisture) {
  return gravity * (0.1941 + 0.004064 * (moisture / percent)) + 0.01864;
}

double heat_capacity(Share moisture, Temperature temperature) {
  const double x = moisture / percent;
  const double t = (temperature - Temperature{}) / kelvin;
  const double dry = 0.1031 + 0.003867 * t;
  const double bound_water = x * (-0.06191 + 2.36e-4 * t - 1.33e-4 * x);
  return 1000 * ((dry + 4.18 * x / 100) / (1 + x / 100) + bound_water);
}

}  // namespace blankwright
