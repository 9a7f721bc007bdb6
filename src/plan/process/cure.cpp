#include "plan/process/cure.h"

#include <algorithm>

#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/process/impregnated_wood.h"
#include "plan/tables/oven.h"

namespace blankwright {
namespace {

Traced<double> conductivity_term(Term name, double k) { return term(name, k, TermFrom::conductivity_of_mix); }

/// How the core is warmed with this film and conductivity across the grain.
HeatingInput heating_of(const CureInput& in, const ImpregnatedWood& wood, double film, double k_across) {
  return {.across = in.section,
          .along = in.length,
          .k_across = k_across,
          .k_along = wood.k_along,
          .heat_capacity = wood.heat_capacity,
          .density = wood.density,
          .film = film,
          .start = in.start,
          .air = in.resin.cure_air.value,
          .target = in.resin.cure_core->value};
}

/// 0 for a core that is warm enough already.
Duration time_of(const HeatingInput& in) { return in.target <= in.start ? Duration{} : heating_time(in); }

Traced<Duration> core_time(const CureInput& in, const ImpregnatedWood& wood, double film, double k_across) {
  return phrase(
      Term::time_to_warm_the_core, time_of(heating_of(in, wood, film, k_across)),
      {term(Term::section, in.section, TermFrom::blank).expression(),
       term(Term::length, in.length, TermFrom::blank).expression(),
       conductivity_term(Term::conductivity_across, k_across).expression(),
       conductivity_term(Term::conductivity_along, wood.k_along).expression(),
       term(Term::heat_capacity, wood.heat_capacity, TermFrom::heat_capacity_of_mix).expression(),
       term(Term::density, wood.density, TermFrom::dry_density_and_resin).expression(),
       term(Term::film_coefficient, film, TermFrom::film_by_common_practice).expression(),
       term(Term::start, in.start, TermFrom::room).expression(), term(Term::air, in.resin.cure_air).expression(),
       term(Term::core, *in.resin.cure_core).expression()});
}

/// The core's times, where there is one to wait for.
void warm_core(const CureInput& in, Worked<Cure>& out) {
  if (!in.resin.cure_core) return;
  out.value.core = out.step(Figure::cure_core, term(Term::core, *in.resin.cure_core));
  if (*out.value.core >= out.value.air) return;
  const ImpregnatedWood wood = impregnated_wood({.dry_density = in.dry_density,
                                                 .uptake = in.uptake,
                                                 .resin_part = in.resin_part,
                                                 .warmed_to = in.start + (out.value.air - in.start) / 2});
  const FilmCoefficient film = film_coefficient(in.oven.fan.value);
  out.value.core_time =
      out.step(Figure::cure_core_time, core_time(in, wood, film.likely, wood.k_across), StepNote{Note::plane_walls});
  out.value.cautiously = heating_of(in, wood, film.cautious, wood.k_across_least);
  out.value.core_time_cautious =
      out.step(Figure::cure_core_time_cautious, core_time(in, wood, film.cautious, wood.k_across_least),
               StepNote{Note::slower_film});
}

/// From the moment when the blanks go in.
Traced<Duration> total(const CureInput& in, const std::optional<Duration>& core_time) {
  const auto hold = term(Term::hold, in.resin.cure_hold);
  if (!core_time) return hold;
  const auto warm = term(Term::core_time, *core_time, TermFrom::above);
  return in.resin.hold_from.value == HoldFrom::core ? warm + hold : larger(warm, hold);
}

}  // namespace

Worked<Cure> cure(const CureInput& in) {
  Worked<Cure> out;
  out.value.oven = &in.oven;
  out.value.air = out.step(Figure::cure_true, term(Term::air, in.resin.cure_air));
  out.value.dial = dial_for(in.oven.calibration, out.value.air);
  if (out.value.dial) {
    out.step(Figure::cure_dial, phrase(Term::by_the_oven_calibration, *out.value.dial,
                                       {term(Term::air, in.resin.cure_air).expression()}));
  }
  warm_core(in, out);
  out.value.hold = out.step(Figure::cure_hold, term(Term::hold, in.resin.cure_hold));
  out.value.hold_from_core = out.value.core && in.resin.hold_from.value == HoldFrom::core;
  out.value.total_likely = total(in, out.value.core_time).value();
  out.value.total =
      out.step(Figure::cure_total, total(in, out.value.core_time_cautious), StepNote{Note::cautious_time});
  return out;
}

std::optional<Duration> cure_time(const Cure& cure, Temperature air) {
  if (!cure.hold_from_core && air + reading_slack < cure.air) return std::nullopt;
  if (!cure.cautiously) return cure.core ? std::nullopt : std::optional{cure.hold};
  HeatingInput heating = *cure.cautiously;
  heating.air = air;
  if (air <= heating.target) return std::nullopt;
  const Duration warm = time_of(heating);
  return cure.hold_from_core ? warm + cure.hold : std::max(warm, cure.hold);
}

std::vector<CureRung> cure_ladder(const Cure& cure, UnitSystem units) {
  const bool metric = units == UnitSystem::metric;
  const Temperature zero = metric ? ice_point : fahrenheit(0);
  const TemperatureChange step = metric ? 1 * kelvin : fahrenheit_degree;
  const double warmest = rounded((cure.air - zero) / step, 1, Round::down);
  std::vector<CureRung> rungs;
  for (int rung = 0; rung < 3; ++rung) {
    const Temperature air = zero + (warmest - (metric ? 3 : 5) * rung) * step;
    if (const auto time = cure_time(cure, air)) rungs.push_back({air, *time});
  }
  return rungs;
}

}  // namespace blankwright
