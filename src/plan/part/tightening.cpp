#include "plan/part/tightening.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/grades.h"
#include "plan/tables/threads.h"

namespace blankwright {
namespace {

/// Of what the torque goes through the thread, at low friction.
Traced<Length> thread_lever(const Thread& thread) {
  return term(Term::thread_pitch, thread.pitch, TermFrom::thread) / (2_exactly * traced_pi()) +
         term(Term::thread_friction, 0.08, TermFrom::low_vdi_2230) *
             term(Term::pitch_diameter, pitch_diameter(thread), TermFrom::pitch_diameter) /
             term(Term::root_of_three, std::numbers::sqrt3, TermFrom::twice_cos_30);
}

/// Where the friction of the seat works, as if all of it were there.
Traced<Length> friction_radius(const ContactRing& ring) {
  const auto outer = term(Term::ring_outer, ring.outer / 2, ring.known ? TermFrom::seat_on_client : TermFrom::seat);
  const auto inner = term(Term::ring_inner, ring.inner / 2, TermFrom::inside_of_it);
  return 2_exactly * (squared(outer) + outer * inner + squared(inner)) / (3_exactly * (outer + inner));
}

Traced<double> root(const Traced<double>& of) { return call(Term::root, std::sqrt(of.value()), {of.expression()}); }

Traced<ForcePerLength> twisted_pull_per_length(const Thread& thread, const Bond& bond, const Traced<Length>& a) {
  const auto at = [&](const Traced<Length>& across, const Traced<Stress>& strength) {
    return across * strength / root(1_exactly + squared(2_exactly * a / across));
  };
  return traced_pi() * smaller(at(term(Term::major_diameter, thread.major, TermFrom::thread),
                                  term(Term::bond_strength, bond.shear_strength)),
                               at(term(Term::bore, bond.bore, TermFrom::drill),
                                  term(Term::wood_shear_strength, bond.wood_shear_strength)));
}

Traced<Stress> yield_strength(const TightenedInput& in) {
  if (in.yield_strength) return term(Term::yield_strength, *in.yield_strength, TermFrom::stud);
  const auto ungraded = find_grade("ungraded", in.thread.major);
  BW_EXPECT(ungraded && ungraded->yield);
  return term(Term::yield_strength, *ungraded->yield, {TermFrom::unknown_grade, ungraded->source});
}

Traced<Force> twisted_stud(const TightenedInput& in, const Traced<Length>& a) {
  const auto area = term(Term::stress_area, tensile_area(in.thread), TermFrom::tensile_stress_area);
  const auto d3 =
      term(Term::minor_diameter, external_minor_diameter(in.thread), TermFrom::minor_diameter_of_the_stud);
  const auto twist = 16_exactly * a * area / (traced_pi() * squared(d3) * d3);
  return term(Number{"0.9"}, 0.9, TermFrom::vdi_2230) * yield_strength(in) * area /
         root(1_exactly + 3_exactly * squared(twist));
}

Traced<double> safety_factor(const TightenedInput& in) {
  return term(Term::safety_factor, static_cast<double>(in.glue.safety_factor.value),
              origin_of(in.glue.safety_factor));
}

/// What the bond bears, and the bounds that it sets.
std::vector<Traced<Torque>> bounds_of_bond(const TightenedInput& in, const Traced<Length>& lever,
                                           Worked<Tightened>& out) {
  const Bond bond{in.bore, in.glue.shear_strength, in.glue.wood_shear_strength};
  const auto embedded = term(Term::embedded, in.embedded, TermFrom::stud);
  const auto factor =
      term(Term::assembly_factor, in.glue.assembly_factor.value / whole, origin_of(in.glue.assembly_factor));
  const auto a = term(Term::thread_lever, in.preload.thread_lever, TermFrom::thread_lever_formula);
  out.value.bond = out.step(Figure::stud_tightened_bond, twisted_pull_per_length(in.thread, bond, a) * embedded);
  const auto twisted = term(Term::pull_that_the_twisted_bond_bears, *out.value.bond, TermFrom::above);
  const auto torque =
      term(Term::bond_torque, (torque_per_length(in.thread, bond) * embedded).value(), TermFrom::above);
  std::vector<Traced<Torque>> bounds{twisted / factor * lever, torque / factor};
  out.value.by_bond = bounds.at(0).value();
  out.value.by_twist = bounds.at(1).value();
  if (!in.pull || in.pull->value <= 0 * newton) return bounds;
  const auto pull = term(Term::pull, *in.pull);
  const auto capacity =
      term(Term::bond_capacity, (pull_per_length(in.thread, bond) * embedded).value(), TermFrom::stud);
  if (in.preload.most && *in.preload.most > 0 * newton) {
    const auto most = term(Term::pull_of_tightening, *in.preload.most, TermFrom::above);
    out.value.safety_in_use = out.step(Figure::stud_safety_in_use, (capacity - most / 2_exactly) / pull);
  }
  bounds.push_back(2_exactly * larger(capacity - safety_factor(in) * pull, term(Term::unnamed, 0 * newton)) * lever);
  out.value.by_pull = bounds.back().value();
  return bounds;
}

Traced<Torque> least_of(const std::vector<Traced<Torque>>& bounds) {
  Torque least = bounds.front().value();
  std::vector<ExpressionPtr> all;
  for (const auto& bound : bounds) {
    least = std::min(least, bound.value());
    all.push_back(bound.expression());
  }
  return call(Term::least_of, least, std::move(all));
}

}  // namespace

ContactRing contact_ring(const Order& order) {
  const SeatFacts& seat = order.seat;
  ContactRing ring{
      .inner = order.stud.thread.value.major,
      .outer = order.ferrule ? order.ferrule->outside_diameter.value : order.handle.stations.front().diameter.value,
      .known = seat.part_diameter.has_value()};
  if (seat.part_diameter) ring.outer = std::min(ring.outer, seat.part_diameter->value);
  if (seat.form.value == SeatForm::flat || !seat.diameter) return ring;
  const Length shoulder = std::max(seat.diameter->value, ring.inner);
  if (shoulder < ring.outer) {
    ring.inner = shoulder;
  } else {
    ring.outer = std::min(ring.outer, seat.diameter->value);
  }
  return ring;
}

Worked<Preload> preload(const PreloadInput& in) {
  BW_EXPECT(in.ring.inner > 0 * mm && in.ring.outer > 0 * mm);
  Worked<Preload> out;
  const auto of_thread = thread_lever(in.thread);
  out.value.thread_lever = of_thread.value();
  auto lever = of_thread + term(Term::seat_friction, 0.1, TermFrom::low_common_practice) * friction_radius(in.ring);
  if (!in.ring.known) {
    lever = smaller(lever, term(Number{"0.2"}, 0.2, TermFrom::nuts_face) *
                               term(Term::major_diameter, in.thread.major, TermFrom::thread));
  }
  out.value.lever = out.step(Figure::stud_tightening_lever, lever);
  if (!in.tightening) return out;
  out.value.most = out.step(Figure::stud_preload, term(Term::tightening, *in.tightening) /
                                                      term(Term::lever, out.value.lever, TermFrom::above));
  return out;
}

Worked<Tightened> tightened(const TightenedInput& in) {
  Worked<Tightened> out;
  const auto lever = term(Term::lever, in.preload.lever, TermFrom::above);
  std::vector<Traced<Torque>> bounds;
  if (in.glued) bounds = bounds_of_bond(in, lever, out);
  out.value.stud =
      out.step(Figure::stud_tightened_stud,
               twisted_stud(in, term(Term::thread_lever, in.preload.thread_lever, TermFrom::thread_lever_formula)));
  bounds.push_back(term(Term::pull_that_the_twisted_stud_bears, out.value.stud, TermFrom::above) * lever);
  out.value.by_stud = bounds.back().value();
  if (in.head_strip) {
    bounds.push_back(term(Term::pull_that_strips, *in.head_strip, TermFrom::above) / safety_factor(in) * lever);
    out.value.by_thread = bounds.back().value();
  }
  if (!in.glued) return out;
  out.value.largest = out.step(Figure::stud_largest_tightening, least_of(bounds));
  return out;
}

}  // namespace blankwright
