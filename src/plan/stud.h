#pragma once

#include <optional>

#include "measure/thread.h"
#include "plan/working.h"

namespace blankwright {

struct Stud {
  Length embedded;    ///< in the wood
  Length projection;  ///< out of the finished seat
  Length cut_length;
  std::optional<Length> bottom_clearance;  ///< left in the client's hole; unknown without its depth
  Area tensile_area;
  std::optional<Force> bond_capacity;  ///< before the safety factor; of a glued stud only
};

struct StudInput {
  Thread thread;
  bool glued = true;
  Given<Length> enters;                     ///< the client's part
  std::optional<Given<Length>> hole_depth;  ///< of the client's part
  std::optional<Given<Length>> embedded;    ///< as the order wants it
  std::optional<Given<Force>> pull;
  Given<Stress> shear_strength;  ///< of the bond
  Given<int> safety_factor;
  Given<Share> least_embedded;  ///< of the stud's diameter
  Length step;                  ///< embedded lengths are rounded up to a multiple of this, > 0
};

/// Lengths of the stud and what holds it.
///
///   embedded = as ordered, or the larger of  least × d  and  factor × pull / (π d τ),  rounded up
///   capacity = π d embedded τ         (d: the stud's; it is thinner than its bore, so the bond fails there first)
///
/// Uniform shear: published rules for glued rods are for long rods in softwood, so this is an orientation and a
/// pulled stud is the evidence. Source: common practice, no source; tensile areas ISO 898-1, ASME B1.1 appendix B.
Worked<Stud> stud(const StudInput& in);

}  // namespace blankwright
