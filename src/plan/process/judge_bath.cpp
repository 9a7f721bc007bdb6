#include "plan/process/judge_bath.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <numbers>
#include <vector>

#include "diagnose/failure.h"
#include "diagnose/problem.h"
#include "measure/elapsed.h"
#include "measure/nearest.h"
#include "plan/figure/judge_words.h"

namespace blankwright {
namespace {

const ResinFacts* find_resin(const Shop& shop, const std::string& name) {
  const auto found = std::ranges::find_if(shop.resins, [&](const ResinFacts& r) { return r.name.value == name; });
  return found == shop.resins.end() ? nullptr : &*found;
}

/// What may have been meant, or else all that there is.
std::string instead(const std::string& key, const std::string& typed, const std::vector<std::string>& known) {
  auto names = nearest_names(typed, known, 3);
  const bool near = !names.empty();
  if (!near) names = known;
  std::string list;
  for (const std::string& name : names) list += fmt::format("{}{} = \"{}\"", list.empty() ? "" : " or ", key, name);
  return near ? "did you mean " + list + "?" : list;
}

void say_unknown_resin(const Given<std::string>& resin, const Shop& shop, Diagnostics& out) {
  std::vector<std::string> known;
  for (const ResinFacts& r : shop.resins) known.push_back(r.name.value);
  out.error(Problem::resin_unknown, resin.at, fmt::format("the shop file knows no resin \"{}\"", resin.value))
      .hint(known.empty()
                ? "add it to the shop file, from its data sheet: [[resins]] with name, density, cure_air and "
                  "cure_hold"
                : instead("resin", resin.value, known));
}

bool dye_is_known(const std::optional<Given<std::string>>& dye, const ResinFacts& resin, Diagnostics& out) {
  if (!dye) return true;
  std::vector<std::string> known;
  for (const auto& d : resin.dyes) known.push_back(d.value);
  if (std::ranges::find(known, dye->value) != known.end()) return true;
  out.error(Problem::dye_unknown, dye->at,
            fmt::format("the shop file knows no dye \"{}\" for resin \"{}\"", dye->value, resin.name.value))
      .label(resin.dyes.empty() ? resin.name.at : resin.dyes.front().at, "the resin's dyes stand here")
      .hint(known.empty() ? fmt::format("dyes = [\"{}\"] under that resin, or leave `dye` out", dye->value)
                          : instead("dye", dye->value, known));
  return false;
}

std::string pasted_at_most(Length most, const Shop& shop) {
  return shop.units.value == UnitSystem::metric
             ? number(most, {UnitSystem::metric, Round::down, Fineness::sawn}).digits + " mm"
             : vulgar_fraction(most, Round::down) + " in";
}

std::string sawn(Length length, const Shop& shop, Round round) {
  return in_units(length, shop, round, Fineness::sawn);
}

bool has_its_sizes(const VesselFacts& vessel, Diagnostics& out) {
  const bool round = vessel.shape.value == VesselShape::round;
  const bool whole_size = round ? vessel.diameter.has_value() : vessel.width && vessel.depth;
  if (whole_size) return true;
  const char* lacking = round ? "diameter" : vessel.width ? "depth" : vessel.depth ? "width" : "width and depth";
  const char* hint = round          ? "diameter = \"200 mm\", measured inside"
                     : vessel.width ? "depth = \"200 mm\", measured inside"
                     : vessel.depth ? "width = \"200 mm\", measured inside"
                                    : "width = \"200 mm\" and depth = \"200 mm\", measured inside";
  out.error(Problem::vessel_size_missing, vessel.place,
            fmt::format("{} vessel \"{}\" without {}", round ? "round" : "rectangular", vessel.name.value, lacking))
      .label(vessel.shape.at, "its shape")
      .hint(hint);
  return false;
}

Length clear_width(const VesselFacts& vessel) {
  if (vessel.shape.value == VesselShape::round) return vessel.diameter->value;
  return std::min(vessel.width->value, vessel.depth->value);
}

bool is_in_proportion(const VesselFacts& vessel, const Shop& shop, Diagnostics& out) {
  bool good = true;
  if (vessel.usable_height && !fits(vessel.height.value, vessel.usable_height->value)) {
    good = false;
    out.error(Problem::out_of_range, vessel.usable_height->at,
              fmt::format("usable height of {} is more than the whole height of vessel \"{}\", {}",
                          sawn(vessel.usable_height->value, shop, Round::nearest), vessel.name.value,
                          sawn(vessel.height.value, shop, Round::nearest)))
        .label(vessel.height.at, "the whole height")
        .hint(fmt::format("usable_height = \"{}\" leaves half of it for foam",
                          pasted_at_most(vessel.height.value / 2, shop)));
  }
  if (vessel.piercing.value > Length{} && fits(vessel.piercing.value, clear_width(vessel))) {
    good = false;
    out.error(Problem::out_of_range, vessel.piercing.at,
              fmt::format("a rod of {} fills vessel \"{}\", which is {} wide inside",
                          sawn(vessel.piercing.value, shop, Round::nearest), vessel.name.value,
                          sawn(clear_width(vessel), shop, Round::nearest)))
        .hint("`piercing` is the diameter of the rod where it goes through the surface");
  }
  return good;
}

bool ballast_sinks(const Shop& shop, Diagnostics& out) {
  const Given<Density>& ballast = shop.bath.ballast_density;
  for (const ResinFacts& resin : shop.resins) {
    if (ballast.value > resin.density.value) continue;
    out.error(Problem::out_of_range, ballast.at,
              fmt::format("ballast of {} does not sink in resin \"{}\" of {}", text(ballast.value, shop.units.value),
                          resin.name.value, text(resin.density.value, shop.units.value)))
        .label(resin.density.at, "the resin")
        .hint("ballast_density = \"7.9 g/cm3\" is stainless steel");
    return false;
  }
  return true;
}

/// What one blank would need that draws in as much as it is large, in a vessel as high as one likes; none where it
/// does not even find a place.
std::optional<Length> height_needed(VesselFacts vessel, Length section, Length length, const Shop& shop,
                                    const ResinFacts& resin) {
  vessel.height.value = 100 * metre;
  vessel.usable_height = vessel.height;
  const Mass resin_at_most = resin.density.value * (section * section * length);
  const auto filling = bath({.vessel = vessel,
                             .facts = shop.bath,
                             .resin = resin,
                             .blanks = {{1, section, length, Mass{}, resin_at_most, resin_at_most}},
                             .on_hand = {}});
  if (!filling) return std::nullopt;
  return filling->value.start_height;
}

/// Why a vessel does not take one blank, and how far off it is.
struct Lacking {
  const VesselFacts* vessel;
  std::optional<Length> height;  ///< that resin would have to stand at; none: too narrow
  Length off() const { return *height - usable_height(*vessel); }
};

Lacking nearest_miss(Length section, Length length, const Shop& shop, const ResinFacts& resin) {
  std::optional<Lacking> best;
  for (const VesselFacts& vessel : shop.vessels) {
    const Lacking here{&vessel, height_needed(vessel, section, length, shop, resin)};
    const bool nearer =
        !best || (here.height && !best->height) || (here.height && best->height && here.off() < best->off());
    if (nearer) best = here;
  }
  return *best;
}

/// The same vessel, just wide enough for one standing blank.
VesselFacts wide_enough(VesselFacts vessel, Length section, const Shop& shop) {
  const Length gaps = 2 * shop.bath.gap.value;
  const double slack = 1 + 1e-9;  // what a square root may have rounded away
  if (vessel.shape.value == VesselShape::round) {
    vessel.diameter->value = slack * (std::numbers::sqrt2 * section + gaps);
  } else {
    vessel.width->value = std::max(vessel.width->value, slack * (section + gaps));
    vessel.depth->value = std::max(vessel.depth->value, slack * (section + gaps));
  }
  return vessel;
}

void say_too_narrow(const VesselFacts& vessel, Length section, Length length, Diagnostic& said, const Shop& shop,
                    const ResinFacts& resin) {
  const VesselFacts wide = wide_enough(vessel, section, shop);
  const std::string height = pasted(height_needed(wide, section, length, shop, resin).value_or(Length{}), shop);
  const std::string sizes = vessel.shape.value == VesselShape::round
                                ? fmt::format("diameter = \"{}\"", pasted(wide.diameter->value, shop))
                                : fmt::format("width = \"{}\", depth = \"{}\"", pasted(wide.width->value, shop),
                                              pasted(wide.depth->value, shop));
  said.label(vessel.place, "the vessel")
      .label(shop.bath.gap.at, "kept free to the wall")
      .hint(fmt::format("a vessel with {} and usable_height = \"{}\" at least takes one", sizes, height));
}

void say_too_low(const Lacking& lacking, Diagnostic& said, const Shop& shop) {
  const VesselFacts& vessel = *lacking.vessel;
  const std::string wanted = fmt::format("usable_height = \"{}\"", pasted(*lacking.height, shop));
  const Length slack = 0.2 * mm;  // what rounding up for the hint may have added
  said.label(vessel.usable_height ? vessel.usable_height->at : vessel.height.at,
             vessel.usable_height ? "so high resin may stand" : "half of it is taken as usable")
      .label(shop.bath.cover.at, "the cover asked for")
      .hint(fits(vessel.height.value - slack, *lacking.height)
                ? wanted + ", if what is left above is room enough for foam; else a taller or a wider vessel"
                : "a taller vessel, with " + wanted);
}

}  // namespace

bool vessels_make_sense(const Shop& shop, Diagnostics& out) {
  const int before = out.errors();
  for (const VesselFacts& vessel : shop.vessels) {
    if (has_its_sizes(vessel, out)) is_in_proportion(vessel, shop, out);
  }
  ballast_sinks(shop, out);
  for (const ActivatedFacts& left : shop.activated) {
    if (const ResinFacts* resin = find_resin(shop, left.resin.value)) {
      dye_is_known(left.dye, *resin, out);
    } else {
      say_unknown_resin(left.resin, shop, out);
    }
  }
  return out.errors() == before;
}

const ResinFacts* judge_treatment(const Order& order, const Shop& shop, Diagnostics& out) {
  const TreatmentFacts& wanted = *order.treatment;
  const ResinFacts* resin = find_resin(shop, wanted.resin.value);
  if (resin == nullptr) say_unknown_resin(wanted.resin, shop, out);
  const bool known = resin != nullptr && dye_is_known(wanted.dye, *resin, out);
  if (!shop.vessels.empty()) return known ? resin : nullptr;
  out.warning(Problem::vessel_missing, wanted.place, "no vessel in the shop file: no bath is planned")
      .hint("vessels = [{name = \"Pot\", diameter = \"200 mm\", height = \"400 mm\"}]");
  return nullptr;
}

void judge_vessel(Length section, Length length, const Order& order, const Shop& shop, Diagnostics& out) {
  const ResinFacts* resin = find_resin(shop, order.treatment->resin.value);
  BW_EXPECT(resin != nullptr && !shop.vessels.empty());
  const Lacking lacking = nearest_miss(section, length, shop, *resin);
  const VesselFacts& vessel = *lacking.vessel;
  const std::string blank = fmt::format("{} × {}", sawn(section, shop, Round::up), sawn(length, shop, Round::up));
  const std::string which = shop.vessels.size() == 1
                                ? fmt::format("vessel \"{}\", which", vessel.name.value)
                                : fmt::format("any vessel; the nearest, \"{}\",", vessel.name.value);
  const std::string why =
      lacking.height
          ? fmt::format("would have to be filled up to {} to keep it covered, and may be to {}",
                        sawn(*lacking.height, shop, Round::up), sawn(usable_height(vessel), shop, Round::down))
          : fmt::format("is too narrow: it is {} wide", sawn(clear_width(vessel), shop, Round::down));
  Diagnostic& said = out.error(Problem::vessel_too_small, order.treatment->place,
                               fmt::format("a blank of {} finds no room in {} {}", blank, which, why));
  if (lacking.height) {
    say_too_low(lacking, said, shop);
  } else {
    say_too_narrow(vessel, section, length, said, shop, *resin);
  }
}

void judge_float(const BathBlanks& one, const Order& order, const Shop& shop, const ResinFacts& resin,
                 Diagnostics& out) {
  const Density wood = one.dry_mass / (one.section * one.section * one.length);
  if (wood < resin.density.value) return;
  out.note(Problem::resin_lighter_than_wood, order.treatment->resin.at,
           fmt::format("dry wood of {} sinks in resin \"{}\" of {} and needs no ballast: check both densities",
                       text(wood, shop.units.value), resin.name.value, text(resin.density.value, shop.units.value)))
      .label(resin.density.at, "the resin's density")
      .label(order.wood.dry_density ? order.wood.dry_density->at : order.wood.species.at, "the wood's");
}

ActivatedResin usable_on_hand(const Shop& shop, const ResinFacts& resin, const std::optional<std::string>& dye,
                              Date today, Diagnostics& out) {
  ActivatedResin usable;
  for (const ActivatedFacts& left : shop.activated) {
    const bool same_dye = left.dye ? dye && *dye == left.dye->value : !dye;
    if (left.resin.value != resin.name.value || !same_dye) continue;
    const auto days = std::chrono::sys_days{today} - std::chrono::sys_days{left.on.value};
    if (!resin.storage_life || duration_of(days) <= resin.storage_life->value) {
      usable.amount += left.amount.value;
      usable.oldest = std::min(usable.oldest.value_or(left.on.value), left.on.value);
      continue;
    }
    out.warning(
           Problem::activated_too_old, left.on.at,
           fmt::format("{} of activated resin \"{}\" is {} days old on {} and is not counted on",
                       liquid_text(left.amount.value, shop.units.value), resin.name.value, days.count(), text(today)))
        .label(resin.storage_life->at, "kept at most, once activated")
        .hint(
            "take it out of `activated`, and cure it out in thin layers before it is thrown away, as its data sheet "
            "says");
  }
  return usable;
}

}  // namespace blankwright
