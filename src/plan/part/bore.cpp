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
  const auto least = term("stud major", thread.major, "thread") + 2_exactly * term("glue line", glue_line);
  out.step(Figure::bore_diameter, phrase("drill of at least", drill.diameter, {least.expression()}),
           StepNote{Note::drill, drill.stamped});
  out.value = {drill, (drill.diameter - thread.major) / 2, std::nullopt};
  return out;
}

Worked<BoreDrill> tapped_bore(const Thread& thread, const Drill& drill) {
  Worked<BoreDrill> out;
  const auto diameter = term("drill", drill.diameter, drill.name());
  out.step(Figure::bore_diameter, diameter, StepNote{Note::inside_minor_diameter});
  const auto percent_left = (term("stud major", thread.major, "thread") - diameter) /
                            (term(1.08253) * term("pitch", thread.pitch, "thread"));
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
  const auto full = term("embedded", in.embedded, "stud") + term("reservoir", in.reservoir);
  out.value.full = out.step(Figure::bore_depth, full);
  const auto lips = term("depth", full.value(), "above");
  const auto half_point = call(
      "tan", tan(in.point.value / 2),
      {term("half the point's angle of " + text(in.point.value), in.point.value / 2 / radian, origin_text(in.point))
           .expression()});
  out.value.tip = out.step(Figure::bore_tip_depth, lips + term("drill", in.drill, "bore") / 2_exactly / half_point);
  out.value.from_drilled_face = out.step(Figure::bore_depth_from_drilled_face, lips + term("seat facing", in.facing));
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
  out.value.least_wall = out.step(Figure::bore_least_wall,
                                  (term("D", in.form.diameter(best), "form at the place that governs") -
                                   term("bore there", 2 * radius_at(best), "bore")) /
                                          2_exactly -
                                      term("bore off the stud's axis", off_at(best), "bore and stud"),
                                  StepNote{Note::at_from_seat, best});
  out.value.web = out.step(Figure::bore_web,
                           term("handle", in.form.length(), "job") - term("depth to the point", depth.tip, "above"));
  return out;
}

}  // namespace blankwright
