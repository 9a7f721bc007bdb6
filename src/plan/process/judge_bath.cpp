#include "plan/process/judge_bath.h"

#include <algorithm>
#include <chrono>
#include <numbers>
#include <vector>

#include "diagnose/failure.h"
#include "diagnose/problem.h"
#include "diagnose/says_process.h"
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
Saying instead(Keyword key, const std::string& typed, const std::vector<std::string>& known) {
  const auto names = nearest_names(typed, known, 3);
  const bool near = !names.empty();
  std::vector<Saying> ways;
  for (const std::string& name : near ? names : known) ways.push_back(say(says::assigned, key, name));
  const Saying list = listed(ways, says::either);
  return near ? say(says::did_you_mean, list) : list;
}

void say_unknown_resin(const Given<std::string>& resin, const Shop& shop, Diagnostics& out) {
  std::vector<std::string> known;
  for (const ResinFacts& r : shop.resins) known.push_back(r.name.value);
  out.error(Problem::resin_unknown, resin.at, says::no_such_resin, resin.value)
      .hint(known.empty() ? say(says::add_the_resin, resin.value) : instead({"resin"}, resin.value, known));
}

bool dye_is_known(const std::optional<Given<std::string>>& dye, const ResinFacts& resin, Diagnostics& out) {
  if (!dye) return true;
  std::vector<std::string> known;
  for (const auto& d : resin.dyes) known.push_back(d.value);
  if (std::ranges::find(known, dye->value) != known.end()) return true;
  out.error(Problem::dye_unknown, dye->at, says::no_such_dye, dye->value, resin.name.value)
      .label(resin.dyes.empty() ? resin.name.at : resin.dyes.front().at, says::dyes_stand_here)
      .hint(known.empty() ? say(says::add_the_dye, dye->value) : instead({"dye"}, dye->value, known));
  return false;
}

bool has_its_sizes(const VesselFacts& vessel, Diagnostics& out) {
  const bool round = vessel.shape.value == VesselShape::round;
  const bool whole_size = round ? vessel.diameter.has_value() : vessel.width && vessel.depth;
  if (whole_size) return true;
  const bool lacks_both = !round && !vessel.width && !vessel.depth;
  const Keyword lacking{round ? "diameter" : vessel.width ? "depth" : "width"};
  const std::string& name = vessel.name.value;
  out.error(Problem::vessel_size_missing, vessel.place,
            round        ? say(says::round_without_diameter, name)
            : lacks_both ? say(says::rectangular_without_both, name)
                         : say(says::rectangular_without_one, name, lacking))
      .label(vessel.shape.at, says::its_shape)
      .hint(lacks_both ? say(says::both_measured_inside) : say(says::one_measured_inside, lacking));
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
    out.error(Problem::out_of_range, vessel.usable_height->at, says::more_usable_than_whole,
              sawn(vessel.usable_height->value, shop), vessel.name.value, sawn(vessel.height.value, shop))
        .label(vessel.height.at, says::the_whole_height)
        .hint(says::half_for_foam, pasted(vessel.height.value / 2, shop, Round::down));
  }
  if (vessel.piercing.value > Length{} && fits(vessel.piercing.value, clear_width(vessel))) {
    good = false;
    out.error(Problem::out_of_range, vessel.piercing.at, says::rod_fills_vessel, sawn(vessel.piercing.value, shop),
              vessel.name.value, sawn(clear_width(vessel), shop))
        .hint(says::piercing_is_a_diameter);
  }
  return good;
}

bool ballast_sinks(const Shop& shop, Diagnostics& out) {
  const Given<Density>& ballast = shop.bath.ballast_density;
  for (const ResinFacts& resin : shop.resins) {
    if (ballast.value > resin.density.value) continue;
    out.error(Problem::out_of_range, ballast.at, says::ballast_floats, printed(ballast.value, shop.units.value),
              resin.name.value, printed(resin.density.value, shop.units.value))
        .label(resin.density.at, says::the_resin)
        .hint(says::such_as_steel);
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
  const Printed height = pasted(height_needed(wide, section, length, shop, resin).value_or(Length{}), shop);
  said.label(vessel.place, says::the_vessel)
      .label(shop.bath.gap.at, says::kept_free_to_wall)
      .hint(vessel.shape.value == VesselShape::round
                ? say(says::wider_round_vessel, pasted(wide.diameter->value, shop), height)
                : say(says::wider_rectangular_vessel, pasted(wide.width->value, shop),
                      pasted(wide.depth->value, shop), height));
}

void say_too_low(const Lacking& lacking, Diagnostic& said, const Shop& shop) {
  const VesselFacts& vessel = *lacking.vessel;
  const Length slack = 0.2 * mm;  // what rounding up for the hint may have added
  said.label(vessel.usable_height ? vessel.usable_height->at : vessel.height.at,
             vessel.usable_height ? says::so_high_it_may_stand : says::half_taken_as_usable)
      .label(shop.bath.cover.at, says::the_cover_asked_for)
      .hint(fits(vessel.height.value - slack, *lacking.height) ? says::more_usable_height : says::a_taller_vessel,
            pasted(*lacking.height, shop));
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
  out.warning(Problem::vessel_missing, wanted.place, says::no_vessel).hint(says::such_as_a_pot);
  return nullptr;
}

void judge_vessel(Length section, Length length, const Order& order, const Shop& shop, Diagnostics& out) {
  const ResinFacts* resin = find_resin(shop, order.treatment->resin.value);
  BW_EXPECT(resin != nullptr && !shop.vessels.empty());
  const Lacking lacking = nearest_miss(section, length, shop, *resin);
  const VesselFacts& vessel = *lacking.vessel;
  const bool alone = shop.vessels.size() == 1;
  const Printed wide = sawn(section, shop, Round::up);
  const Printed high = sawn(length, shop, Round::up);
  if (lacking.height) {
    say_too_low(lacking,
                out.error(Problem::vessel_too_small, order.treatment->place,
                          alone ? says::too_low_the_vessel : says::too_low_the_nearest, wide, high, vessel.name.value,
                          sawn(*lacking.height, shop, Round::up), sawn(usable_height(vessel), shop, Round::down)),
                shop);
  } else {
    say_too_narrow(vessel, section, length,
                   out.error(Problem::vessel_too_small, order.treatment->place,
                             alone ? says::too_narrow_the_vessel : says::too_narrow_the_nearest, wide, high,
                             vessel.name.value, sawn(clear_width(vessel), shop, Round::down)),
                   shop, *resin);
  }
}

void judge_float(const BathBlanks& one, const Order& order, const Shop& shop, const ResinFacts& resin,
                 Diagnostics& out) {
  const Density wood = one.dry_mass / (one.section * one.section * one.length);
  if (wood < resin.density.value) return;
  out.note(Problem::resin_lighter_than_wood, order.treatment->resin.at, says::wood_sinks,
           printed(wood, shop.units.value), resin.name.value, printed(resin.density.value, shop.units.value))
      .label(resin.density.at, says::the_resins_density)
      .label(order.wood.dry_density ? order.wood.dry_density->at : order.wood.species.at, says::the_woods_density);
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
    out.warning(Problem::activated_too_old, left.on.at, says::resin_is_old,
                printed_liquid(left.amount.value, shop.units.value), resin.name.value, days.count(), today)
        .label(resin.storage_life->at, says::kept_at_most)
        .hint(says::take_it_out);
  }
  return usable;
}

}  // namespace blankwright
