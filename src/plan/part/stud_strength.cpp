#include "plan/part/stud_strength.h"

#include <algorithm>

#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/part/thread_shear.h"
#include "plan/tables/grades.h"
#include "plan/tables/threads.h"

namespace blankwright {
namespace {

struct StudMetal {
  std::optional<Traced<Stress>> yield, tensile;
};

StudMetal metal_of(const StudStrengthInput& in) {
  StudMetal metal;
  if (in.facts.yield_strength) metal.yield = term(Term::yield_strength, *in.facts.yield_strength);
  if (!in.facts.grade) return metal;
  const auto grade = find_grade(in.facts.grade->value, in.thread.major);
  if (!grade) return metal;
  const TermSource origin{TermFrom::nowhere, grade->source, printed_words(fmt::format("{}:", grade->name))};
  metal.tensile = term(Term::tensile_strength, grade->tensile, origin);
  if (!metal.yield && grade->yield) metal.yield = term(Term::yield_strength, *grade->yield, origin);
  return metal;
}

std::optional<Traced<Force>> largest_pull(const StudStrengthInput& in) {
  if (!in.facts.pull && !in.preload) return std::nullopt;
  if (!in.preload) return term(Term::pull, *in.facts.pull);
  const auto tightening = term(Term::pull_of_tightening, *in.preload, TermFrom::above);
  return in.facts.pull ? larger(term(Term::pull, *in.facts.pull), tightening) : tightening;
}

void work_out_bond(const StudStrengthInput& in, Worked<StudStrength>& out) {
  if (!in.glued) return;
  out.value.bond_measured = in.glue.shear_measured.value;
  const Bond bond{in.bore, in.glue.shear_strength, in.glue.wood_shear_strength};
  const auto embedded = term(Term::embedded, in.embedded, TermFrom::stud);
  out.value.bond_torque = out.step(Figure::stud_bond_torque, torque_per_length(in.thread, bond) * embedded);
  if (in.facts.pull && in.facts.pull->value > 0 * newton) {
    const auto capacity = pull_per_length(in.thread, bond) * embedded;
    out.value.bond_safety = out.step(Figure::stud_bond_safety, capacity / term(Term::pull, *in.facts.pull));
  }
  if (in.facts.torque && in.facts.torque->value > 0 * newton_metre) {
    out.value.torque_safety =
        out.step(Figure::stud_torque_safety, term(Term::bond_torque, *out.value.bond_torque, TermFrom::above) /
                                                 term(Term::torque, *in.facts.torque));
  }
}

void work_out_bending(const StudStrengthInput& in, const StudMetal& metal, Worked<StudStrength>& out) {
  if (!in.facts.side_load || !in.facts.lever) return;
  const auto d3 =
      term(Term::minor_diameter, external_minor_diameter(in.thread), TermFrom::minor_diameter_of_the_stud);
  const auto moment = term(Term::side_load, *in.facts.side_load) * term(Term::lever, *in.facts.lever);
  out.value.bending = out.step(Figure::stud_bending_stress, 32_exactly * moment / (traced_pi() * squared(d3) * d3));
  if (metal.yield && *out.value.bending > 0 * pascal) {
    out.value.bending_safety = out.step(
        Figure::stud_bending_safety, *metal.yield / term(Term::bending_stress, *out.value.bending, TermFrom::above));
  }
}

void work_out_head(const StudStrengthInput& in, const StudMetal& metal, Worked<StudStrength>& out) {
  if (!in.facts.part_shear_strength) return;
  const auto enters = term(Term::enters, in.facts.enters);
  const auto most = term(Number{"1.5"}, most_engaged_diameters, TermFrom::usual_practice) *
                    term(Term::major_diameter, in.thread.major, TermFrom::thread);
  const auto engaged =
      call(Term::least_of, std::min(enters.value(), most.value()), {enters.expression(), most.expression()});
  auto strip =
      internal_shear_area(in.thread, engaged) * term(Term::shear_strength_of_the_part, *in.facts.part_shear_strength);
  if (metal.tensile) {
    const auto stud = external_shear_area(in.thread, engaged) *
                      term(Number{"0.577"}, shear_of_tensile, TermFrom::von_mises) * *metal.tensile;
    strip = call(Term::least_of, std::min(strip.value(), stud.value()), {strip.expression(), stud.expression()});
  }
  out.value.head_strip = out.step(Figure::stud_head_strip, strip);
  const auto pull = largest_pull(in);
  if (pull && pull->value() > 0 * newton) {
    out.value.head_strip_safety = out.step(
        Figure::stud_head_strip_safety, term(Term::pull_that_strips, *out.value.head_strip, TermFrom::above) / *pull);
  }
}

}  // namespace

Worked<StudStrength> stud_strength(const StudStrengthInput& in) {
  Worked<StudStrength> out;
  const StudMetal metal = metal_of(in);
  if (metal.yield) out.value.yield_strength = metal.yield->value();
  if (metal.tensile) out.value.tensile_strength = metal.tensile->value();
  work_out_bond(in, out);
  work_out_bending(in, metal, out);
  work_out_head(in, metal, out);
  if (in.preload) {
    out.value.tightening = out.step(Figure::stud_tightening_stress,
                                    term(Term::pull_of_tightening, *in.preload, TermFrom::above) /
                                        term(Term::tensile_stress_area, tensile_area(in.thread), TermFrom::stud));
  }
  return out;
}

}  // namespace blankwright
