#include "plan/judge_wood.h"

#include <fmt/format.h>

#include "plan/judge_words.h"
#include "plan/tables/species.h"

namespace blankwright {
namespace {

std::string thickness(const DryingTime& row, const Shop& shop) {
  return in_units(row.thickness.value, shop, Round::nearest, Fineness::sawn);
}

}  // namespace

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
