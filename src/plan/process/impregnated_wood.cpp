#include "plan/process/impregnated_wood.h"

#include "diagnose/failure.h"
#include "plan/tables/wood.h"

namespace blankwright {
namespace {

constexpr double resin_conductivity = 0.19;   ///< W/(m K)
constexpr double resin_heat_capacity = 1450;  ///< J/(kg K)

}  // namespace

ImpregnatedWood impregnated_wood(const ImpregnatedWoodInput& in) {
  BW_EXPECT(in.dry_density > Density{} && in.uptake >= 0);
  BW_EXPECT(in.resin_part >= Share{} && in.resin_part <= whole);
  const Share dry{};
  const double resin = in.resin_part / whole;
  const double wood = conductivity_across(in.dry_density / (1000 * kilogram_per_m3), dry);
  const double in_place_of_air = resin * (resin_conductivity - conductivity_across(0, dry));
  ImpregnatedWood out;
  out.density = (1 + in.uptake) * in.dry_density;
  out.heat_capacity = (heat_capacity(dry, in.warmed_to) + in.uptake * resin_heat_capacity) / (1 + in.uptake);
  out.k_across_least = 1 / ((1 - resin) / wood + resin / resin_conductivity);
  out.k_across = (out.k_across_least + wood + in_place_of_air) / 2;
  out.k_along = along_over_across * wood + in_place_of_air;
  return out;
}

}  // namespace blankwright
