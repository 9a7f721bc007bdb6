#include "plan/part/axis_error.h"

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"

namespace blankwright {
namespace {

/// A deviation over 100 mm as a slope.
Traced<double> slope(Term name, const Given<Length>& per_100mm) {
  TermSource from = origin_of(per_100mm);
  from.per_100mm = true;
  return term(name, per_100mm.value / (100 * mm), std::move(from));
}

}  // namespace

Worked<AxisError> axis_error(const AxisErrorInput& in) {
  BW_EXPECT(in.embedded > 0 * mm && in.glue_line >= 0 * mm);
  const auto hold = term(Term::offset_held, in.offset);
  const auto tilt = in.on_lathe ? term(Term::tilt_of_the_drill, 0.0, TermFrom::bored_true_on_the_lathe)
                                : slope(Term::tilt_held, in.tilt_per_100mm);
  const auto square = slope(Term::end_squareness, in.end_squareness_per_100mm);
  const auto g = term(Term::glue_line, in.glue_line, TermFrom::bore_and_stud);
  const auto leaning = in.jig_tilt_per_100mm ? slope(Term::tilt_left_by_the_jig, *in.jig_tilt_per_100mm)
                                             : 2_exactly * g / term(Term::embedded, in.embedded, TermFrom::plan);
  Worked<AxisError> out;
  out.value.offset =
      out.step(Figure::axis_offset, hold + (in.jig_offset ? term(Term::offset_left_by_the_jig, *in.jig_offset) : g));
  out.value.tilt = out.step(Figure::axis_tilt, tilt + leaning + square);
  return out;
}

}  // namespace blankwright
