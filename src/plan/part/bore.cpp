#include "plan/part/bore.h"

#include <cmath>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/drills.h"
#include "plan/tables/threads.h"

namespace blankwright {

Length glued_bore_least(const Thread& thread, Length glue_line) { return thread.major + 2 * glue_line; }

Worked<BoreDrill> glued_bore(const Thread& thread, const Given<Length>& glue_line, const Drill& drill) {
  Worked<BoreDrill> out;
  const auto least =
      term(Term::stud_major, thread.major, TermFrom::thread) + 2_exactly * term(Term::glue_line, glue_line);
  out.step(Figure::bore_diameter, phrase(Term::drill_of_at_least, drill.diameter, {least.expression()}),
           StepNote{Note::drill, drill.stamped});
  out.value = {drill, (drill.diameter - thread.major) / 2, std::nullopt};
  return out;
}

Worked<BoreDrill> tapped_bore(const Thread& thread, const Drill& drill) {
  Worked<BoreDrill> out;
  const auto diameter = term(Term::drill, drill.diameter, {TermFrom::nowhere, Printed{.amounts = {drill.stamped}}});
  out.step(Figure::bore_diameter, diameter, StepNote{Note::inside_minor_diameter});
  const auto percent_left = (term(Term::stud_major, thread.major, TermFrom::thread) - diameter) /
                            (term(1.08253) * term(Term::pitch, thread.pitch, TermFrom::thread));
  out.value = {drill, 0 * mm, out.step(Figure::bore_thread_percent, percent_left) * whole};
  return out;
}

std::optional<Drill> tap_drill_among(std::span<const Drill> owned, const Thread& thread) {
  const ThreadLimits limits = thread_limits(thread);
  const auto chart = conventional_tap_drill(thread);
  const Length aim = chart ? chart->drill.diameter : limits.hole_minor_most;
  std::optional<Drill> best;
  for (const Drill& drill : owned) {
    if (!is_tap_hole(thread, drill.diameter)) continue;
    if (!best || abs(drill.diameter - aim) < abs(best->diameter - aim)) best = drill;
  }
  return best;
}

Worked<BoreDepth> bore_depth(const BoreDepthInput& in) {
  BW_EXPECT(in.drill > 0 * mm && in.embedded > 0 * mm);
  Worked<BoreDepth> out;
  const auto full = term(Term::embedded, in.embedded, TermFrom::stud) + term(Term::reservoir, in.reservoir);
  out.value.full = out.step(Figure::bore_depth, full);
  const auto lips = term(Term::depth, full.value(), TermFrom::above);
  const auto half_point = call(Term::tangent, tan(in.point.value / 2),
                               {term(Term::half_point_angle, in.point.value / 2 / radian, origin_of(in.point),
                                     printed_words(text(in.point.value)))
                                    .expression()});
  out.value.tip =
      out.step(Figure::bore_tip_depth, lips + term(Term::drill, in.drill, TermFrom::bore) / 2_exactly / half_point);
  out.value.from_drilled_face =
      out.step(Figure::bore_depth_from_drilled_face, lips + term(Term::seat_facing, in.facing));
  return out;
}

Worked<BoreWalls> bore_walls(const BoreWallsInput& in) {
  BW_EXPECT(in.embedded > 0 * mm);
  const BoreDepth& depth = in.depth;
  const auto radius_at = [&](Length z) {
    if (z <= depth.full || depth.tip <= depth.full) return in.drill / 2;
    return in.drill / 2 * (1 - std::min(1.0, (z - depth.full) / (depth.tip - depth.full)));
  };
  const auto off_at = [&](Length z) { return in.glue_line * std::max(1.0, 2 * (z / in.embedded) - 1); };
  const auto wall_at = [&](Length z) { return (in.form.diameter(z) / 2 - radius_at(z) - off_at(z)) / metre; };
  // Searched from bend to bend, so that what is between two stations of a straight form is straight.
  const Length end = std::min(depth.tip, in.form.length());
  const Length lips = std::min(depth.full, end);
  const Length stud_end = std::min(in.embedded, lips);
  Length best = where_least(in.form, wall_at, 0 * mm, stud_end);
  for (const Length z : {where_least(in.form, wall_at, stud_end, lips), where_least(in.form, wall_at, lips, end)}) {
    if (wall_at(z) < wall_at(best)) best = z;
  }
  Worked<BoreWalls> out;
  out.value.wall_at = best;
  out.value.least_wall =
      out.step(Figure::bore_least_wall,
               (term(Term::form_diameter, in.form.diameter(best), TermFrom::form_at_the_place_that_governs) -
                term(Term::bore_there, 2 * radius_at(best), TermFrom::bore)) /
                       2_exactly -
                   term(Term::bore_off_the_stud_axis, off_at(best), TermFrom::bore_and_stud),
               StepNote{Note::at_from_seat, best});
  out.value.web = out.step(Figure::bore_web, term(Term::handle, in.form.length(), TermFrom::job) -
                                                 term(Term::depth_to_the_point, depth.tip, TermFrom::above));
  return out;
}

}  // namespace blankwright
