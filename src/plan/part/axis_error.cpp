#include "plan/part/axis_error.h"

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"

namespace blankwright {
namespace {

/// A deviation over 100 mm as a slope.
Traced<double> slope(const std::string& name, const Given<Length>& per_100mm) {
  return term(name, per_100mm.value / (100 * mm), origin_text(per_100mm) + ", per 100 mm");
}

}  // namespace

Worked<AxisError> axis_error(const AxisErrorInput& in) {
  BW_EXPECT(in.embedded > 0 * mm && in.glue_line >= 0 * mm);
  const auto hold = term("offset held", in.offset);
  const auto tilt =
      in.on_lathe ? term("tilt of the drill", 0.0, "bored true on the lathe") : slope("tilt held", in.tilt_per_100mm);
  const auto square = slope("end squareness", in.end_squareness_per_100mm);
  const auto g = term("glue line", in.glue_line, "bore and stud");
  const auto leaning = in.jig_tilt_per_100mm ? slope("tilt left by the jig", *in.jig_tilt_per_100mm)
                                             : 2_exactly * g / term("embedded", in.embedded, "plan");
  Worked<AxisError> out;
  out.value.offset =
      out.step(Figure::axis_offset, hold + (in.jig_offset ? term("offset left by the jig", *in.jig_offset) : g));
  out.value.tilt = out.step(Figure::axis_tilt, tilt + leaning + square);
  return out;
}

}  // namespace blankwright
