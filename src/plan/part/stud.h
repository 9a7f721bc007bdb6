#pragma once

#include <optional>

#include "diagnose/place.h"
#include "measure/thread.h"
#include "plan/figure/worked.h"
#include "plan/part/bond.h"

namespace blankwright {

struct Stud {
  Length embedded;    ///< in the wood
  Length projection;  ///< out of the finished seat
  Length cut_length;
  std::optional<Length> bottom_clearance;  ///< left in the client's hole; unknown without its depth
  Area tensile_area;
  std::optional<Force> bond_capacity;  ///< before the safety factor; of a glued stud only
  bool bond_measured = false;          ///< its strength was pulled, not assumed
};

struct StudInput {
  Thread thread;
  bool glued = true;
  Given<Length> enters;                     ///< the client's part
  std::optional<Given<Length>> hole_depth;  ///< of the client's part
  std::optional<Given<Length>> embedded;    ///< as the order wants it
  std::optional<Given<Force>> pull;
  std::optional<Given<Torque>> torque;  ///< in use
  Length bore;                          ///< diameter, > 0
  Given<Stress> shear_strength;         ///< of the bond, at the stud
  Given<Stress> wood_shear_strength;    ///< of the wood round the bore
  bool strength_measured = false;       ///< both, on studs that were pulled
  Given<int> safety_factor;
  Given<Share> least_embedded;  ///< of the stud's diameter
  Length step;                  ///< embedded lengths are rounded up to a multiple of this, > 0
};

/// Lengths of the stud and what holds it.
///
///   embedded = as ordered, or the largest, rounded up, of
///                least × d
///                factor × pull / (π min(d τ, bore τ_wood))
///                factor × torque / (π min(d² τ, bore² τ_wood) / 2)    (in use: tightening never lengthens it)
///   capacity = π min(d τ, bore τ_wood) embedded
///
/// Uniform shear: an orientation, see plan/part/bond.h; a pulled stud is the evidence. Source: common practice, no
/// source; tensile areas ISO 898-1, ASME B1.1 appendix B.
Worked<Stud> stud(const StudInput& in);

}  // namespace blankwright
