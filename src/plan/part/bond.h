#pragma once

#include "diagnose/place.h"
#include "measure/thread.h"
#include "plan/figure/worked.h"

namespace blankwright {

/// The glue between a stud and its bore. It lets go where it is weaker: at the metal, or in the wood round it.
struct Bond {
  Length bore;                        ///< diameter, > 0
  Given<Stress> shear_strength;       ///< at the stud's surface, > 0
  Given<Stress> wood_shear_strength;  ///< at the bore's surface, > 0
};

using ForcePerLength = Quantity<0, 1, -2, 0>;

/// Pull that a length of the bond bears:  π min(d τ, bore τ_wood)
/// Shear that is the same all over: an orientation. Real bonds are strained most at their ends, and published rules
/// for glued rods are for long rods in softwood. Source: common practice, no source.
Traced<ForcePerLength> pull_per_length(const Thread& thread, const Bond& bond);

/// Torque about the stud that a length of the bond bears:  π min(d² τ, bore² τ_wood) / 2
/// With the same proviso.
Traced<Force> torque_per_length(const Thread& thread, const Bond& bond);

}  // namespace blankwright
