#pragma once

#include <optional>

#include "plan/part/bond.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// What holds the stud under the order's loads, each before its safety factor. What cannot be worked out for want of
/// a load or a strength is not known; nor is a safety under a load of nothing.
struct StudStrength {
  std::optional<Torque> bond_torque;        ///< that the bond bears; of a glued stud
  std::optional<double> bond_safety;        ///< bond capacity over pull
  std::optional<double> torque_safety;      ///< bond torque over the torque in use
  std::optional<Stress> bending;            ///< under the side load, at the seat
  std::optional<Stress> yield_strength;     ///< of the stud, as given or by its grade
  std::optional<Stress> tensile_strength;   ///< of the stud, by its grade
  std::optional<double> bending_safety;     ///< yield strength over bending stress
  std::optional<Force> head_strip;          ///< pull that strips the thread in the client's part, or the stud's there
  std::optional<double> head_strip_safety;  ///< that over the larger of the pull and that of tightening
  std::optional<Stress> tightening;         ///< tensile stress when tightened
  bool bond_measured = false;               ///< its strength was pulled, not assumed
};

struct StudStrengthInput {
  Thread thread;
  bool glued = true;
  Length bore;      ///< diameter, > 0
  Length embedded;  ///< in the wood
  const StudFacts& facts;
  const GlueFacts& glue;
  std::optional<Force> preload;  ///< largest pull of the order's tightening, see plan/part/tightening.h
};

/// The stud under load.
///
///   bond torque = π min(d² τ, bore² τ_wood) embedded / 2
///   bending     = 32 F lever / (π d3³)       d3 the minor diameter of the stud; at the seat
///   head strip  = min(ASn × shear strength of the part, ASs × 0.577 × tensile strength of the stud)
///                 over what the stud enters, up to 1.5 d; without the stud's grade the first alone
///   tightening  = pull of tightening / At
///
/// Uniform shear: an orientation; a pulled witness is the evidence. Each load is taken by itself; tightening with its
/// torque stands in plan/part/tightening.h. Bending counts on no help from the seat that closes on the part. Sources:
/// plan/part/bond.h, plan/part/thread_shear.h; ISO 898-1; strengths by grade in plan/tables/grades.h.
Worked<StudStrength> stud_strength(const StudStrengthInput& in);

}  // namespace blankwright
