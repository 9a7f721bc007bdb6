#pragma once

#include "plan/figure/worked.h"
#include "read/order.h"

namespace blankwright {

/// What the seat's diameter may still gain from oven-dry wood to the moisture where it is used: an upper bound, since
/// filled lumens do not prevent it but slow it down.
struct SizeInUse {
  Length gain_low, gain_high;  ///< at the driest and the dampest
  Length turn_to;  ///< seat diameter that never stands proud of its nominal one; may be <= 0 for odd orders
};

struct SizeInUseInput {
  Length seat;       ///< finished diameter at the seat, > 0
  Length tolerance;  ///< of diameters, to either side, >= 0
  Share tangential;  ///< shrinkage green to oven-dry, S0, 0 to below 100 %
  const UseFacts& use;
};

/// Change of a size D from one moisture to another, both up to fibre saturation:
///   ΔD = D S0 (Mf − Mi) / (0.30 − S0 (0.30 − Mi))
/// which is D (Mf − Mi) / (30/S0 − 30 + Mi) with moistures in %, written so that S0 may be 0. Linear between oven-dry
/// and 30 %. Source: Wood Handbook ch. 13.
Traced<Length> size_change(const Traced<Length>& size, const Traced<double>& shrinkage, const Traced<double>& from,
                           const Traced<double>& to);

/// The wood is turned soon after the cure, so that it counts as oven-dry:
///   gain    = ΔD of the seat from 0 to the moisture of use
///   turn_to = seat / (1 + gain per size at the dampest) − tolerance
/// so that even a seat left thicker by the tolerance does not outgrow its nominal diameter. Source: Wood Handbook
/// ch. 13; tangential, the direction that moves most.
Worked<SizeInUse> size_in_use(const SizeInUseInput& in);

}  // namespace blankwright
