#pragma once

#include "measure/quantity.h"

namespace blankwright {

/// Below this moisture wood shrinks; above it it does not. Wood Handbook (FPL-GTR-190), ch. 4: about 30 %.
inline constexpr Share fibre_saturation = 30 * percent;

/// Shrinkage along the grain, green to oven-dry, of straight-grained wood. Wood Handbook ch. 4 gives 0.1 to 0.2 % on
/// the average (from memory); the cautious end. Reaction wood and juvenile wood shrink more.
inline constexpr Share longitudinal_shrinkage = 0.2 * percent;

/// Shrinkage from green to the moisture x, as a share of the green size: S0 (30 − x)/30, none above 30 %.
/// `green_to_dry` is S0 in that direction; moisture >= 0, dry basis. Source: Wood Handbook eq. 4-7.
Share shrinkage_at(Share green_to_dry, Share moisture);

/// What is lost from the moisture M to oven-dry, as a share of the size at M:
///   S = 1 − (1 − S0)/(1 − S0 (30 − M)/30),  M capped at 30 %
/// so that size at M = oven-dry size / (1 − S). green_to_dry 0 to below 100 %, moisture >= 0; otherwise BW_EXPECT.
/// Source: Wood Handbook eq. 4-7, taken twice.
Share shrinkage_to_dry(Share green_to_dry, Share moisture);

/// Specific gravity, oven-dry mass on the volume at the moisture x: Gx = Gb/(1 − Sx) with Gb on the green volume and
/// the volumetric shrinkage S0. Source: Wood Handbook eq. 4-9.
double specific_gravity_at(double green, Share volumetric, Share moisture);

/// Density of the cell wall's substance, oven-dry. Siau 1984: 1.53 g/cm³ by displacement of helium or water; other
/// uses take 1.50 or 1.54, which shifts the void share by about 0.01.
inline constexpr Density cell_wall = 1530 * kilogram_per_m3;

/// Conductivity across the grain, W/(m K):  G (0.1941 + 0.004064 x) + 0.01864,  x in %
/// G > 0.3, moisture below 25 %, 24 °C; good to 20 %. Source: Wood Handbook (FPL-GTR-190) eq. 4-15.
double conductivity_across(double gravity, Share moisture);

/// How much better wood conducts along the grain than across: 1.5 to 2.8 times. Wood Handbook ch. 4, the mean.
inline constexpr double along_over_across = 1.8;

/// Heat capacity, J/(kg K):  (c0 + 4.18 x/100)/(1 + x/100) + Ac,  c0 = 0.1031 + 0.003867 T kJ/(kg K),
/// Ac = x (−0.06191 + 2.36e-4 T − 1.33e-4 x),  x in %, T in K
/// Below fibre saturation, 7 to 147 °C. Source: Wood Handbook (FPL-GTR-190) eq. 4-16 to 4-18.
double heat_capacity(Share moisture, Temperature temperature);

}  // namespace blankwright
