#pragma once

#include "diagnose/place.h"
#include "plan/figure/worked.h"

namespace blankwright {

/// A squared blank that is rounded between centres before it is bored (boring method `lathe`).
struct RoundedBlank {
  Length marking;   ///< k: how far off the middle of its end either centre may be marked
  Length diameter;  ///< the largest to which it surely rounds without a flat
  Length runout;    ///< of the set stud at the seat, the rounded blank running true
};

struct RoundedBlankInput {
  Length squared_section;
  Given<Length> section_tolerance, bow;
  Given<Length> held;  ///< e_hold: how far off the shop marks a centre, >= 0
  Length seat_offset;  ///< e*: see centring(); below 0 no axis would do
};

/// What a turner can measure once there are no faces left.
///
///   k        = e_hold where e* is larger, else e*/2, 0 at least
///   diameter = squared − section tolerance − 2 bow − 2 k
///   runout   = 2 (e* − k)
///
/// The cylinder's axis runs from mark to mark, so all along the blank it is off the section's middle by k at most
/// (the greater of two distances is convex along a line), and towards a face a square loses all of that: no larger
/// cylinder is sure. The stud's runout on it shows how far the stud is off the cylinder's axis, of which it is twice
/// the amount, but not how far that axis is off the middle; both together may be e*. In the cylinder the form has
/// m(z) − k of wood, the margin of centring() less the marking, so that axes within this runout and the rod's limit
/// leave the form inside in every direction. Where e* is no larger than what the shop holds, nothing would be left
/// for the stud: half of e* then goes to each, and the centres have to be marked that much truer.
/// Source: geometry of a circle in a square whose direction is not known; ISO 1101, runout of a coaxial pair.
Worked<RoundedBlank> rounded_blank(const RoundedBlankInput& in);

}  // namespace blankwright
