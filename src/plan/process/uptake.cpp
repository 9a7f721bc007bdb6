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

constexpr const char* sound_from = "species table, oven-dry";

Traced<Density> dry_density(const UptakeInput& in) {
  if (in.measured) return term("measured density", *in.measured);
  const auto sound = term("density of sound wood", in.sound, sound_from);
  const Share lost = usual_loss(in.condition.value);
  if (lost == Share{}) return sound;
  return sound * (1_exactly - term("usual loss", lost / whole, common_practice));
}

/// A usual fill share; no more than the part of the void that the vacuum has emptied of air.
Traced<double> within_reach(const std::string& name, Share usual, Share air_removed) {
  return usual <= air_removed ? term(name, usual / whole, common_practice)
                              : term("air removed", air_removed / whole, "vacuum");
}

/// Volume, density and mass of the dry wood, and how much of it is void.
void work_out_wood(const UptakeInput& in, Worked<Uptake>& out) {
  Uptake& u = out.value;
  const auto density = dry_density(in);
  u.dry_density = out.step(Figure::uptake_dry_density, density);
  const auto dry = term("dry density", u.dry_density, "above");
  const auto section = term("section", in.section, "blank");
  u.dry_volume = out.step(Figure::uptake_dry_volume, section * section * term("length", in.length, "blank"));
  u.dry_mass = out.step(Figure::uptake_dry_mass, term("V", u.dry_volume, "above") * dry);
  u.void_share = out.step(Figure::uptake_void_share, 1_exactly - dry / term("ρ_cw", cell_wall, "Siau")) * whole;
  const auto lighter = 1_exactly - dry / term("density of sound wood", in.sound, sound_from);
  u.punkiness = out.step(Figure::uptake_punkiness, larger(0_exactly, lighter)) * whole;
}

/// Resin, given the wood.
void work_out_resin(const UptakeInput& in, Worked<Uptake>& out) {
  Uptake& u = out.value;
  const UsualFill usual = usual_fill(in.condition.value, in.species);
  const auto m = term("m", u.dry_mass, "above");
  const auto v = term("V", u.dry_volume, "above");
  const auto resin = term("ρ_r", in.resin.density);
  const auto full = v * term("void", u.void_share / whole, "above") * resin;
  const auto removed = term("air removed", in.air_removed / whole, "vacuum");
  u.resin_limit = out.step(Figure::uptake_resin_limit, full * removed);
  const auto low = within_reach("usual fill, low", usual.low, in.air_removed);
  const auto high = within_reach("usual fill, high", usual.high, in.air_removed);
  if (in.seen && in.seen->n >= enough_seen) {
    const auto mean = term("mean gain", in.seen->mean, fmt::format("register, {} blanks", in.seen->n));
    const auto off = 2_exactly * term("deviation", in.seen->deviation, "register");
    const auto most = term("limit", u.resin_limit, "above");
    u.resin_low = out.step(Figure::uptake_resin_low, smaller(larger(m * (mean - off), 0_exactly * m), most));
    u.resin_high = out.step(Figure::uptake_resin_high, smaller(m * (mean + off), most));
  } else {
    u.resin_low = out.step(Figure::uptake_resin_low, full * low);
    u.resin_high = out.step(Figure::uptake_resin_high, full * high);
  }
  const auto& least = in.facts.least_fill;
  u.fill = out.step(Figure::uptake_fill_share,
                    least ? term("least fill", least->value / whole, origin_text(*least)) : low) *
           whole;
  const auto f = term("f", u.fill / whole, "above");
  u.least_wet = out.step(Figure::uptake_least_wet_mass,
                         m * (1_exactly - f * resin / term("ρ_cw", cell_wall, "Siau")) + f * resin * v);
  const auto wet = term("least wet", u.least_wet, "above");
  const auto bled = term("bleed-out", in.resin.bleed_out.value / whole, origin_text(in.resin.bleed_out));
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
