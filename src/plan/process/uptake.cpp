#include "plan/process/uptake.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/uptake.h"
#include "plan/tables/wood.h"

namespace blankwright {
namespace {

/// From so many blanks on, what a shop has seen goes before what is usual.
constexpr int enough_seen = 8;

constexpr TermFrom sound_from = TermFrom::species_table_dry;

Traced<Density> dry_density(const UptakeInput& in) {
  if (in.measured) return term(Term::measured_density, *in.measured);
  const auto sound = term(Term::density_of_sound_wood, in.sound, sound_from);
  const Share lost = usual_loss(in.condition.value);
  if (lost == Share{}) return sound;
  return sound * (1_exactly - term(Term::usual_loss, lost / whole, TermFrom::usual_practice));
}

/// A usual fill share; no more than the part of the void that the vacuum has emptied of air.
Traced<double> within_reach(Term name, Share usual, Share air_removed) {
  return usual <= air_removed ? term(name, usual / whole, TermFrom::usual_practice)
                              : term(Term::air_removed, air_removed / whole, TermFrom::vacuum);
}

/// Volume, density and mass of the dry wood, and how much of it is void.
void work_out_wood(const UptakeInput& in, Worked<Uptake>& out) {
  Uptake& u = out.value;
  const auto density = dry_density(in);
  u.dry_density = out.step(Figure::uptake_dry_density, density);
  const auto dry = term(Term::dry_density, u.dry_density, TermFrom::above);
  const auto section = term(Term::section, in.section, TermFrom::blank);
  u.dry_volume =
      out.step(Figure::uptake_dry_volume, section * section * term(Term::length, in.length, TermFrom::blank));
  u.dry_mass = out.step(Figure::uptake_dry_mass, term(Term::volume, u.dry_volume, TermFrom::above) * dry);
  u.void_share = out.step(Figure::uptake_void_share,
                          1_exactly - dry / term(Term::cell_wall_density, cell_wall, TermFrom::siau)) *
                 whole;
  const auto lighter = 1_exactly - dry / term(Term::density_of_sound_wood, in.sound, sound_from);
  u.punkiness = out.step(Figure::uptake_punkiness, larger(0_exactly, lighter)) * whole;
}

/// Resin, given the wood.
void work_out_resin(const UptakeInput& in, Worked<Uptake>& out) {
  Uptake& u = out.value;
  const UsualFill usual = usual_fill(in.condition.value, in.species);
  const auto m = term(Term::mass, u.dry_mass, TermFrom::above);
  const auto v = term(Term::volume, u.dry_volume, TermFrom::above);
  const auto resin = term(Term::resin_density, in.resin.density);
  const auto full = v * term(Term::void_share, u.void_share / whole, TermFrom::above) * resin;
  const auto removed = term(Term::air_removed, in.air_removed / whole, TermFrom::vacuum);
  u.resin_limit = out.step(Figure::uptake_resin_limit, full * removed);
  const auto low = within_reach(Term::usual_fill_low, usual.low, in.air_removed);
  const auto high = within_reach(Term::usual_fill_high, usual.high, in.air_removed);
  if (in.seen && in.seen->n >= enough_seen) {
    const auto mean = term(Term::mean_gain, in.seen->mean,
                           {TermFrom::register_blanks, printed(decimal(in.seen->n, 0), PrintedUnit::none)});
    const auto off = 2_exactly * term(Term::deviation, in.seen->deviation, TermFrom::from_register);
    const auto most = term(Term::limit, u.resin_limit, TermFrom::above);
    u.resin_low = out.step(Figure::uptake_resin_low, smaller(larger(m * (mean - off), 0_exactly * m), most));
    u.resin_high = out.step(Figure::uptake_resin_high, smaller(m * (mean + off), most));
  } else {
    u.resin_low = out.step(Figure::uptake_resin_low, full * low);
    u.resin_high = out.step(Figure::uptake_resin_high, full * high);
  }
  const auto& least = in.facts.least_fill;
  u.fill = out.step(Figure::uptake_fill_share,
                    least ? term(Term::least_fill, least->value / whole, origin_of(*least)) : low) *
           whole;
  const auto f = term(Term::fill, u.fill / whole, TermFrom::above);
  u.least_wet = out.step(
      Figure::uptake_least_wet_mass,
      m * (1_exactly - f * resin / term(Term::cell_wall_density, cell_wall, TermFrom::siau)) + f * resin * v);
  const auto wet = term(Term::least_wet, u.least_wet, TermFrom::above);
  const auto bled = term(Term::bleed_out, in.resin.bleed_out.value / whole, origin_of(in.resin.bleed_out));
  u.least_cured = out.step(Figure::uptake_least_cured_mass, wet - bled * (wet - m));
}

// The ladder's ends over the nominal mass: wood far gone, and denser than the table's mean.
constexpr double lightest = 0.65;
constexpr double heaviest = 1.25;

/// Of which the ladder's steps are whole multiples.
Mass unit_of(UnitSystem units) { return units == UnitSystem::metric ? gram : 0.1 * ounce; }

/// 1, 2, 5, 10 ... of them, so that there are at most 15 rungs: 12 steps, and the ends rounded outwards.
double round_step(Mass nominal, UnitSystem units) {
  const double most = (heaviest - lightest) * nominal / (12 * unit_of(units));
  double decade = 1;
  while (5 * decade < most) decade *= 10;
  for (const double of_ten : {1, 2}) {
    if (of_ten * decade >= most) return of_ten * decade;
  }
  return 5 * decade;
}

}  // namespace

Worked<Uptake> uptake(const UptakeInput& in) {
  BW_EXPECT(in.section > 0 * mm && in.length > 0 * mm);
  BW_EXPECT(in.sound > Density{} && in.sound < cell_wall);
  BW_EXPECT(!in.measured || (in.measured->value > Density{} && in.measured->value < cell_wall));
  BW_EXPECT(in.air_removed >= Share{} && in.air_removed <= whole);
  Worked<Uptake> out;
  work_out_wood(in, out);
  work_out_resin(in, out);
  return out;
}

LadderRung ladder_rung(Mass dry, Volume volume, Share fill, const ResinFacts& resin) {
  BW_EXPECT(volume > Volume{} && fill >= Share{} && fill <= whole);
  const double f = fill / whole;
  const Density liquid = resin.density.value;
  const Mass wet = (1 - f * (liquid / cell_wall)) * dry + f * (liquid * volume);
  return {dry, wet, wet - resin.bleed_out.value / whole * (wet - dry)};
}

std::vector<LadderRung> ladder(const Uptake& uptake, const ResinFacts& resin, UnitSystem units) {
  const double step = round_step(uptake.dry_mass, units);
  const Mass unit = step * unit_of(units);
  std::vector<LadderRung> rungs;
  const double first = std::max(std::floor(lightest * uptake.dry_mass / unit), 1.0);
  const double last = std::ceil(heaviest * uptake.dry_mass / unit);
  for (double n = first; n <= last; ++n) {
    const Mass dry = n * unit;
    if (dry >= cell_wall * uptake.dry_volume) break;  // nothing is denser than its own substance
    rungs.push_back(ladder_rung(dry, uptake.dry_volume, uptake.fill, resin));
  }
  return rungs;
}

}  // namespace blankwright
