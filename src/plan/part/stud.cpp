#include "plan/part/stud.h"

#include <numbers>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/threads.h"

namespace blankwright {
namespace {

Traced<double> safety_factor(const StudInput& in) {
  return term(Term::safety_factor, static_cast<double>(in.safety_factor.value), origin_of(in.safety_factor));
}

Bond bond_of(const StudInput& in) { return {in.bore, in.shear_strength, in.wood_shear_strength}; }

Traced<Length> wanted_length(const StudInput& in) {
  auto wanted = term(Term::least, in.least_embedded.value / whole, origin_of(in.least_embedded)) *
                term(Term::major_diameter, in.thread.major, TermFrom::thread);
  if (!in.glued) return wanted;
  if (in.pull) {
    wanted = larger(wanted, safety_factor(in) * term(Term::pull, *in.pull) / pull_per_length(in.thread, bond_of(in)));
  }
  if (in.torque) {
    wanted = larger(wanted,
                    safety_factor(in) * term(Term::torque, *in.torque) / torque_per_length(in.thread, bond_of(in)));
  }
  return wanted;
}

Traced<Length> embedded(const StudInput& in) {
  if (in.embedded) return term(Term::embedded, *in.embedded);
  const auto wanted = wanted_length(in);
  return phrase(Term::rounded_up_to_a_whole_step, rounded(wanted.value() / in.step, 1, Round::up) * in.step,
                {wanted.expression()});
}

}  // namespace

Worked<Stud> stud(const StudInput& in) {
  BW_EXPECT(in.step > 0 * mm);
  Worked<Stud> out;
  const auto length = embedded(in);
  out.value.embedded = out.step(Figure::stud_embedded, length);
  const auto in_wood = term(Term::embedded, length.value(), TermFrom::above);
  const auto enters = term(Term::enters, in.enters);
  out.value.projection = out.step(Figure::stud_projection, enters);
  out.value.cut_length = out.step(Figure::stud_cut_length, in_wood + enters);
  if (in.hole_depth) {
    out.value.bottom_clearance =
        out.step(Figure::stud_bottom_clearance, term(Term::depth_of_the_client_hole, *in.hole_depth) - enters);
  }
  const auto d = term(Term::major_diameter, in.thread.major, TermFrom::thread);
  const auto pitch = term(Term::thread_pitch, in.thread.pitch, TermFrom::thread);
  out.step(Figure::stud_major, d);
  out.step(Figure::stud_pitch, pitch);
  const auto area =
      term(Term::pi, std::numbers::pi) / 4_exactly * squared(d - term(stress_area_factor(in.thread)) * pitch);
  out.value.tensile_area = out.step(Figure::stud_tensile_area, area);
  if (in.glued) {
    out.value.bond_measured = in.strength_measured;
    out.value.bond_capacity = out.step(Figure::stud_bond_capacity, pull_per_length(in.thread, bond_of(in)) * in_wood);
  }
  return out;
}

}  // namespace blankwright
