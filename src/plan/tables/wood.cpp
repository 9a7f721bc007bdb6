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

}  // namespace blankwright
