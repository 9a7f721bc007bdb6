#include "plan/wood/judge_wood.h"

#include <variant>

#include "diagnose/problem.h"
#include "diagnose/says_wood.h"
#include "measure/utf8.h"
#include "plan/figure/judge_words.h"
#include "plan/tables/species.h"

namespace blankwright {
namespace {

Printed thickness(const DryingTime& row, const Shop& shop) { return sawn(row.thickness.value, shop); }

/// The condition that stands among the words of a wood's name: of "spalted beech" the spalted; or empty.
std::string_view condition_in(std::string_view species) {
  const std::string words = ascii_lower(species);
  for (const WoodCondition condition :
       {WoodCondition::sound, WoodCondition::spalted, WoodCondition::punky, WoodCondition::burl}) {
    if (words.find(name_of(condition)) != std::string::npos) return name_of(condition);
  }
  return {};
}

}  // namespace

std::optional<WoodFigures> judge_species(const WoodFacts& wood, Diagnostics& out) {
  const SpeciesAnswer answer = find_species(wood.species.value);
  if (const auto* which = std::get_if<WhichSpecies>(&answer)) {
    const std::string_view condition = condition_in(wood.species.value);
    const bool several = which->candidates.size() > 1;
    out.error(Problem::species_ambiguous, wood.species.at,
              several ? say(says::name_of_several_woods, wood.species.value)
                      : say(says::more_than_a_name, wood.species.value))
        .hint(!several && !condition.empty()
                  ? say(says::species_and_condition, which->candidates.front(), condition)
                  : say(says::write_one, listed(which->candidates, says::quoted, says::either)));
    return std::nullopt;
  }
  if (const auto* unknown = std::get_if<UnknownSpecies>(&answer)) {
    if (wood.tangential) return WoodFigures{wood.species.value, wood.tangential->value};
    out.error(Problem::species_unknown, wood.species.at, says::no_shrinkage_known, wood.species.value)
        .hint(unknown->nearest.empty()
                  ? say(says::give_its_shrinkage)
                  : say(says::did_you_mean, listed(unknown->nearest, says::quoted, says::either)));
    return std::nullopt;
  }
  const Species& species = *std::get<const Species*>(answer);
  if (wood.tangential) return WoodFigures{std::string{species.name}, wood.tangential->value};
  if (!species.tangential) {
    out.error(Problem::shrinkage_unknown, wood.species.at, says::shrinkage_not_tabled, species.name)
        .hint(says::give_it);
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
              thicker ? say(says::dries_faster_than_thinner, printed(here.time.value), thickness(here, shop),
                            printed(before.time.value), thickness(before, shop))
                      : say(says::thickness_not_rising, thickness(here, shop), thickness(before, shop)))
        .label(thicker ? before.time.at : before.thickness.at, says::the_row_before)
        .hint(says::write_thin_to_thick);
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
              told ? says::wet_wood_checks : says::wood_taken_as_wet_checks, printed(drying.start_moisture),
              printed(limit.value))
      .label(limit.at, says::the_shops_limit)
      .hint(says::air_dry_and_measure, printed(limit.value, Round::down));
}

std::optional<Density> judge_density(const WoodFacts& wood, Diagnostics& out) {
  const SpeciesAnswer answer = find_species(wood.species.value);
  if (const auto* species = std::get_if<const Species*>(&answer)) {
    if (const auto density = oven_dry_density(**species)) return density;
  }
  if (wood.dry_density) return wood.dry_density->value;
  out.error(Problem::wood_density_unknown, wood.species.at, says::no_density_known, wood.species.value)
      .hint(says::weigh_a_dry_piece);
  return std::nullopt;
}

}  // namespace blankwright
