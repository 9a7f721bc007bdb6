#pragma once

#include "measure/quantity.h"

namespace blankwright {

/// How impregnated wood takes up heat. Conductivities in W/(m K).
struct ImpregnatedWood {
  Density density;
  double heat_capacity = 0;  ///< J/(kg K)
  double k_across = 0, k_across_least = 0;
  double k_along = 0;
};

struct ImpregnatedWoodInput {
  Density dry_density;    ///< of the wood, > 0
  double uptake = 0;      ///< resin over oven-dry mass, >= 0
  Share resin_part;       ///< of the volume that is resin, φ, 0 to 1
  Temperature warmed_to;  ///< at which the heat capacity is taken, within that of the wood's equation
};

/// Properties of oven-dry wood with resin in its pores.
///
///   density       = dry density (1 + uptake)                      the outside volume stays
///   heat capacity = (c_wood + uptake c_resin)/(1 + uptake)        by mass
///   across, most  = k_wood + φ (k_resin − k_air)                  resin in the place of air, everything in parallel
///   across, least = 1/((1 − φ)/k_wood + φ/k_resin)                the wood as it is and the resin in series
///   across        = the middle of the two
///   along         = k_wood along + φ (k_resin − k_air)            the cells run lengthwise: in parallel
///
/// Wood by Wood Handbook eq. 4-15 and 4-16 at 0 % moisture, k_air 0.01864, which eq. 4-15 leaves of wood without
/// substance. Resin as poly(methyl methacrylate): 1.45 kJ/(kg K), 0.19 W/(m K), from memory. The mixing rule is ours:
/// real wood lies between its bounds; the equation itself is good to 20 %, and is carried on below the specific
/// gravity of 0.3 for punky wood.
ImpregnatedWood impregnated_wood(const ImpregnatedWoodInput& in);

}  // namespace blankwright
