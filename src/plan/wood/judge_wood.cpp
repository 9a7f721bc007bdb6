#include "plan/wood/judge_wood.h"

#include <fmt/format.h>

#include <variant>

#include "diagnose/problem.h"
#include "plan/figure/judge_words.h"
#include "plan/tables/species.h"

namespace blankwright {
namespace {

std::string joined(const std::vector<std::string>& names) {
  std::string out;
  for (const std::string& name : names) out += (out.empty() ? "\"" : " or \"") + name + "\"";
  return out;
}

std::string thickness(const DryingTime& row, const Shop& shop) {
  return in_units(row.thickness.value, shop, Round::nearest, Fineness::sawn);
}

}  // namespace

std::optional<WoodFigures> judge_species(const WoodFacts& wood, Diagnostics& out) {
  const SpeciesAnswer answer = find_species(wood.species.value);
  if (const auto* which = std::get_if<WhichSpecies>(&answer)) {
    out.error(Problem::species_ambiguous, wood.species.at,
              fmt::format("\"{}\" is the name of several woods that shrink differently", wood.species.value))
        .hint("write " + joined(which->candidates));
    return std::nullopt;
  }
  if (const auto* unknown = std::get_if<UnknownSpecies>(&answer)) {
    if (wood.tangential) return WoodFigures{wood.species.value, wood.tangential->value};
    auto& said = out.error(Problem::species_unknown, wood.species.at,
                           fmt::format("no shrinkage is known of \"{}\"", wood.species.value));
    said.hint(unknown->nearest.empty() ? "give its tangential shrinkage: tangential = \"8 %\" under [wood]"
                                       : "did you mean " + joined(unknown->nearest) + "?");
    return std::nullopt;
  }
  const Species& species = *std::get<const Species*>(answer);
  if (wood.tangential) return WoodFigures{std::string{species.name}, wood.tangential->value};
  if (!species.tangential) {
    out.error(Problem::shrinkage_unknown, wood.species.at,
              fmt::format("the shrinkage of {} is not tabled", species.name))
        .hint("give it: tangential = \"8 %\" under [wood]");
    return std::nullopt;
  }
  return WoodFigures{std::string{species.name}, *species.tangential};
}

bool drying_times_rise(const Shop& shop, Diagnostics& out) {
  bool rise = true;
  const auto& times = shop.drying.times;
  for (std::size_t i = 1; i < times.size(); ++i) {
    const DryingTime& before = times.at(i - 1);
    const DryingTime& here = times.at(i);
    const bool thicker = here.thickness.value > before.thickness.value;
    if (thicker && here.time.value >= before.time.value) continue;
    out.error(Problem::drying_times_fall, thicker ? here.time.at : here.thickness.at,
              thicker ? fmt::format("{} for {} is less than {} for the thinner {}", text(here.time.value),
                                    thickness(here, shop), text(before.time.value), thickness(before, shop))
                      : fmt::format("thickness {} does not come after {}", thickness(here, shop),
                                    thickness(before, shop)))
        .label(thicker ? before.time.at : before.thickness.at, "the row before")
        .hint("write the rows from thin to thick, none drying faster than a thinner one");
    rise = false;
  }
  return rise;
}

void judge_drying(const Drying& drying, const Order& order, const Shop& shop, Diagnostics& out) {
  if (!drying.air_dry_first) return;
  const WoodFacts& wood = order.wood;
  const bool told = wood.moisture.origin != Origin::standard;
  const Given<Share>& limit = shop.drying.air_dry_above;
  out.warning(Problem::wood_too_wet, told ? wood.moisture.at : wood.species.at,
              fmt::format("wood of {} moisture{} checks in the oven; above {} it is air-dried first",
                          text(drying.start_moisture), told ? "" : ", as is taken where nothing is said of it,",
                          text(limit.value)))
      .label(limit.at, "the shop's limit")
      .hint(fmt::format("seal the ends, dry it under cover and measure again; then moisture = \"{:.1f} %\" or less "
                        "under [wood]",
                        rounded(limit.value / percent, 0.1, Round::down)));
}

std::optional<Density> judge_density(const WoodFacts& wood, Diagnostics& out) {
  const SpeciesAnswer answer = find_species(wood.species.value);
  if (const auto* species = std::get_if<const Species*>(&answer)) {
    if (const auto density = oven_dry_density(**species)) return density;
  }
  if (wood.dry_density) return wood.dry_density->value;
  out.error(Problem::wood_density_unknown, wood.species.at,
            fmt::format("oven-dry density of \"{}\" is not known, and without it no uptake of resin",
                        wood.species.value))
      .hint("weigh and measure an oven-dry piece: dry_density = \"0.52 g/cm3\" under [wood]");
  return std::nullopt;
}

}  // namespace blankwright
