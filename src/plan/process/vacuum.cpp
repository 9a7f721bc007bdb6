#include "plan/process/vacuum.h"

#include <cmath>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/air.h"

namespace blankwright {
namespace {

using Acceleration = Quantity<1, 0, -2, 0>;
constexpr Acceleration gravity = 9.80665 * Acceleration::unit();

Traced<Stress> pressure_term(Term name, const Given<AbsolutePressure>& given) {
  return term(name, given.value - AbsolutePressure{}, origin_of(given));
}

Traced<double> ln(const Traced<double>& x) {
  return call(Term::natural_logarithm, std::log(x.value()), {x.expression()});
}

/// What remains in the pores when the vacuum is broken takes up that part of them.
Traced<double> air_removed(const Traced<Stress>& pore, const Traced<Stress>& atmosphere) {
  const auto removed = 1_exactly - pore / atmosphere;
  return removed.value() < 0 ? larger(0_exactly, removed) : removed;
}

}  // namespace

AbsolutePressure vacuum_target(const VacuumFacts& facts, AbsolutePressure atmosphere) {
  if (!facts.target_reading) return facts.target.value;
  return atmosphere - (facts.target_reading->value - GaugePressure{});
}

Worked<Vacuum> vacuum(const VacuumInput& in) {
  const AbsolutePressure air = standard_atmosphere(in.altitude.value);
  const AbsolutePressure aim = vacuum_target(in.facts, air);
  BW_EXPECT(aim > in.pump.ultimate.value && aim < air);
  BW_EXPECT(in.gas > Volume{} && in.resin_head >= Length{});
  Worked<Vacuum> out;

  out.value.atmosphere = air;
  const auto metres = term(Term::altitude_in_m, in.altitude.value / metre, origin_of(in.altitude));
  out.step(Figure::vacuum_atmosphere,
           phrase(Term::standard_atmosphere, air - AbsolutePressure{}, {metres.expression()}));
  const auto p0 = term(Term::atmosphere, air - AbsolutePressure{}, TermFrom::above);

  out.value.target = aim;
  if (const auto& reading = in.facts.target_reading) {
    const auto wanted = term(Term::reading, reading->value - GaugePressure{}, origin_of(*reading));
    out.step(Figure::vacuum_target, p0 - wanted, StepNote{Note::aimed_by_gauge});
  } else {
    out.step(Figure::vacuum_target, pressure_term(Term::target, in.facts.target));
  }
  const auto p = term(Term::target, aim - AbsolutePressure{}, TermFrom::above);

  out.value.reading = out.step(Figure::vacuum_gauge, p0 - p, StepNote{Note::gauge_reads_more});
  const auto pore = p + term(Term::resin_density_in_bath, in.resin_density) *
                            term(Term::gravity, gravity, TermFrom::standard_gravity) *
                            term(Term::head, in.resin_head, TermFrom::bath);
  out.value.pore_pressure = AbsolutePressure::above_zero(out.step(Figure::vacuum_pore_pressure, pore));
  const auto pu = pressure_term(Term::ultimate, in.pump.ultimate);
  const auto pump_down =
      term(Term::gas, in.gas, TermFrom::bath) / term(Term::pump_speed, in.pump.speed) * ln((p0 - pu) / (p - pu));
  out.value.pump_down = out.step(Figure::vacuum_pump_down, pump_down, StepNote{Note::gas_given_off});
  out.value.air_removed =
      out.step(Figure::vacuum_air_removed, air_removed(term(Term::pore_pressure, pore.value(), TermFrom::above), p0),
               StepNote{Note::vapour_counts}) *
      whole;
  out.value.water_boils = boiling_of_water(aim);
  if (out.value.water_boils) {
    out.step(Figure::vacuum_water_boils, phrase(Term::boiling_point, *out.value.water_boils, {p.expression()}));
  }
  out.value.hold = out.step(Figure::vacuum_hold, term(Term::hold, in.facts.hold));
  out.value.least_soak = out.step(Figure::vacuum_least_soak,
                                  term(Term::soak_factor, in.facts.soak.value / whole, origin_of(in.facts.soak)) *
                                      term(Term::hold, in.facts.hold),
                                  StepNote{Note::as_held});
  return out;
}

}  // namespace blankwright
