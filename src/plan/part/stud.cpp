#include "plan/part/stud.h"

#include <numbers>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/threads.h"

namespace blankwright {
namespace {

Traced<double> safety_factor(const StudInput& in) {
  return term("safety factor", static_cast<double>(in.safety_factor.value), origin_text(in.safety_factor));
}

Bond bond_of(const StudInput& in) { return {in.bore, in.shear_strength, in.wood_shear_strength}; }

Traced<Length> wanted_length(const StudInput& in) {
  auto wanted = term("least", in.least_embedded.value / whole, origin_text(in.least_embedded)) *
                term("d", in.thread.major, "thread");
  if (!in.glued) return wanted;
  if (in.pull) {
    wanted = larger(wanted, safety_factor(in) * term("pull", *in.pull) / pull_per_length(in.thread, bond_of(in)));
  }
  if (in.torque) {
    wanted =
        larger(wanted, safety_factor(in) * term("torque", *in.torque) / torque_per_length(in.thread, bond_of(in)));
  }
  return wanted;
}

Traced<Length> embedded(const StudInput& in) {
  if (in.embedded) return term("embedded", *in.embedded);
  const auto wanted = wanted_length(in);
  return phrase("rounded up to a whole step", rounded(wanted.value() / in.step, 1, Round::up) * in.step,
                {wanted.expression()});
}

}  // namespace

Worked<Stud> stud(const StudInput& in) {
  BW_EXPECT(in.step > 0 * mm);
  Worked<Stud> out;
  const auto length = embedded(in);
  out.value.embedded = out.step(Figure::stud_embedded, length);
  const auto in_wood = term("embedded", length.value(), "above");
  const auto enters = term("enters", in.enters);
  out.value.projection = out.step(Figure::stud_projection, enters);
  out.value.cut_length = out.step(Figure::stud_cut_length, in_wood + enters);
  if (in.hole_depth) {
    out.value.bottom_clearance =
        out.step(Figure::stud_bottom_clearance, term("depth of the client's hole", *in.hole_depth) - enters);
  }
  const auto d = term("d", in.thread.major, "thread");
  const auto pitch = term("P", in.thread.pitch, "thread");
  out.step(Figure::stud_major, d);
  out.step(Figure::stud_pitch, pitch);
  const auto area =
      term("π", std::numbers::pi) / 4_exactly * squared(d - term(stress_area_factor(in.thread)) * pitch);
  out.value.tensile_area = out.step(Figure::stud_tensile_area, area);
  if (in.glued) {
    out.value.bond_measured = in.strength_measured;
    out.value.bond_capacity = out.step(Figure::stud_bond_capacity, pull_per_length(in.thread, bond_of(in)) * in_wood);
  }
  return out;
}

}  // namespace blankwright
