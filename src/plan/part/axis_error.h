#pragma once

#include "diagnose/place.h"
#include "plan/figure/worked.h"

namespace blankwright {

/// How far the turning axis, which is that of the set stud, may be off the blank's centre line.
struct AxisError {
  Length offset;    ///< e, at the seat
  double tilt = 0;  ///< t, as a slope
};

struct AxisErrorInput {
  bool on_lathe = false;         ///< rounded between centres first and bored true to that
  Given<Length> offset;          ///< e_hold: what the method holds, at the seat
  Given<Length> tilt_per_100mm;  ///< t_hold over 100 mm
  Given<Length> end_squareness_per_100mm;
  Length glue_line;  ///< g = (bore − stud)/2; 0 for a stud that its thread holds
  Length embedded;   ///< of the stud in the wood, > 0
  std::optional<Given<Length>> jig_offset, jig_tilt_per_100mm;  ///< measured residual of the centring jig
};

/// The error of the axis that the handle is turned about.
///
///   e = e_hold + g          t = t_hold + 2 g / embedded + end squareness
///
/// A stud may stand aside in its bore by the glue line, and lean from one wall to the other. With a centring jig its
/// measured residual stands instead of the terms with g. On the lathe the drill adds no tilt. Source: geometry.
Worked<AxisError> axis_error(const AxisErrorInput& in);

}  // namespace blankwright
