#pragma once

#include <span>
#include <string>

#include "diagnose/place.h"
#include "plan/part/axis_error.h"
#include "plan/part/finished_form.h"
#include "read/terms.h"

namespace blankwright {

/// How true the stud's axis has to be for the form to lie inside the squared blank, whatever the direction.
struct Centring {
  Length seat_offset;     ///< e*: largest offset of the axis at the seat; negative when no axis would do
  Length seat_governing;  ///< where the form is tightest for it
  double tilt = 0;        ///< t*: largest slope of the axis against the blank's centre line
  Length tilt_governing;
  double chance_clean = 0;  ///< that a bore of this shop, offset and tilt together, leaves the form inside
};

struct CentringInput {
  const FinishedForm& form;
  Length squared_section;
  Given<Length> section_tolerance, finish, bow;
  AxisError axis;                         ///< t of the set stud limits e*
  Length spread_offset;                   ///< offset that 95 of 100 bores keep, >= 0
  double spread_tilt = 0;                 ///< slope that 95 of 100 bores keep, >= 0
  TermFrom spread_from = TermFrom::shop;  ///< whose figures these are
};

/// Wood between form and blank at a length from the seat, with a true axis:
///   m(z) = (squared − section tolerance − D(z))/2 − finish − bow
Length margin_at(const CentringInput& in, Length along);

/// The limits that are printed for the person who measures the bore.
///
///   e* = min over z of ( m(z) − z t )         printed as position Ø 2 e* at the seat
///   t* = min over z > 0 of ( m(z) − e* ) / z  printed as a rod's deviation over 100 mm
///
/// An axis within both lies inside the blank in every direction: its offset at z is at most e* + z t* in any
/// direction, so at most that towards each face. That is sufficient, not necessary. The chance draws offset and tilt
/// together, each Rayleigh distributed with its own direction, and looks at each face (see clears()).
/// Source: geometry of the square; ISO 1101 for the form of the limit.
Worked<Centring> centring(const CentringInput& in);

/// How true an axis has to be in a blank of that size.
struct AxisRoom {
  Length offset;    ///< largest at the seat; below 0 where not even a true axis has room
  double tilt = 0;  ///< largest slope beside it
};
/// e* and t* as above; where the shop's lean leaves nothing at the seat, the offset of an axis that does not lean.
AxisRoom room_for_axis(const CentringInput& in);

/// An axis: its offset at the seat and its slope, towards two neighbouring faces.
struct Axis {
  Length x, y;
  double slope_x = 0, slope_y = 0;
};

/// Does the form about this axis lie inside the blank? Exact for a square section with the axis' tilt small:
/// max(|x|, |y|) at z is at most m(z) at every z.
bool clears(const CentringInput& in, const Axis& axis);

}  // namespace blankwright
