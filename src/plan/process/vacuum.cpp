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

Traced<Stress> pressure_term(std::string name, const Given<AbsolutePressure>& given) {
  return term(std::move(name), given.value - AbsolutePressure{}, origin_text(given));
}

Traced<double> ln(const Traced<double>& x) { return call("ln", std::log(x.value()), {x.expression()}); }

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
  const auto metres = term("altitude in m", in.altitude.value / metre, origin_text(in.altitude));
  out.step(Figure::vacuum_atmosphere, phrase("standard atmosphere", air - AbsolutePressure{}, {metres.expression()}));
  const auto p0 = term("atmosphere", air - AbsolutePressure{}, "above");

  out.value.target = aim;
  if (const auto& reading = in.facts.target_reading) {
    const auto wanted = term("reading", reading->value - GaugePressure{}, origin_text(*reading));
    out.step(Figure::vacuum_target, p0 - wanted, StepNote{Note::aimed_by_gauge});
  } else {
    out.step(Figure::vacuum_target, pressure_term("target", in.facts.target));
  }
  const auto p = term("target", aim - AbsolutePressure{}, "above");

  out.value.reading = out.step(Figure::vacuum_gauge, p0 - p, StepNote{Note::gauge_reads_more});
  const auto pore = p + term("resin's density", in.resin_density) * term("g", gravity, "standard gravity") *
                            term("head", in.resin_head, "bath");
  out.value.pore_pressure = AbsolutePressure::above_zero(out.step(Figure::vacuum_pore_pressure, pore));
  const auto pu = pressure_term("ultimate", in.pump.ultimate);
  const auto pump_down = term("gas", in.gas, "bath") / term("pump's speed", in.pump.speed) * ln((p0 - pu) / (p - pu));
  out.value.pump_down = out.step(Figure::vacuum_pump_down, pump_down, StepNote{Note::gas_given_off});
  out.value.air_removed =
      out.step(Figure::vacuum_air_removed, air_removed(term("pore pressure", pore.value(), "above"), p0),
               StepNote{Note::vapour_counts}) *
      whole;
  out.value.water_boils = boiling_of_water(aim);
  if (out.value.water_boils) {
    out.step(Figure::vacuum_water_boils, phrase("boiling point", *out.value.water_boils, {p.expression()}));
  }
  out.value.hold = out.step(Figure::vacuum_hold, term("hold", in.facts.hold));
  out.value.least_soak = out.step(
      Figure::vacuum_least_soak,
      term("soak factor", in.facts.soak.value / whole, origin_text(in.facts.soak)) * term("hold", in.facts.hold),
      StepNote{Note::as_held});
  return out;
}

}  // namespace blankwright
