#include "plan/process/judge_cure.h"

#include <algorithm>

#include "diagnose/problem.h"
#include "diagnose/says_process.h"
#include "plan/figure/judge_words.h"

namespace blankwright {
namespace {

Printed precise(Temperature temperature, const Shop& shop) {
  return printed_to_a_tenth(temperature, shop.units.value);
}

Place treated(const Order& order) { return order.treatment ? order.treatment->resin.at : Place{}; }

/// Does the calibration span the cure? An oven without one may do; its dial is then not known.
bool warm_enough(const OvenFacts& oven, const Shop& shop, const ResinFacts& resin, Diagnostics& out) {
  if (oven.calibration.empty()) return true;
  const Temperature wanted = resin.cure_air.value;
  const CalibrationPair& coldest = oven.calibration.front();
  const CalibrationPair& hottest = oven.calibration.back();
  if (wanted > hottest.shown.value && hottest.dial.value >= wanted) {
    out.error(Problem::oven_colder_than_cure, hottest.shown.at, says::oven_not_hot_enough, oven.name.value,
              precise(hottest.dial.value, shop), precise(hottest.shown.value, shop), precise(wanted, shop))
        .label(resin.cure_air.at, says::the_cure)
        .hint(says::add_a_hotter_pair);
    return false;
  }
  if (wanted > hottest.shown.value || wanted < coldest.shown.value) {
    const bool above = wanted > hottest.shown.value;
    out.error(Problem::calibration_too_short, above ? hottest.shown.at : coldest.shown.at,
              above ? says::calibration_ends : says::calibration_begins, oven.name.value,
              precise(above ? hottest.shown.value : coldest.shown.value, shop), precise(wanted, shop))
        .label(resin.cure_air.at, says::the_cure)
        .hint(above ? says::add_a_pair_above : says::add_a_pair_below, precise(wanted, shop));
    return false;
  }
  return true;
}

struct Lying {
  Length section, length;
  const BlankSize* dries_to;  ///< of one that goes in sawn; dry it can lie there, which is another way out
};

bool takes(const OvenFacts& oven, const Shop& shop, const Lying& blank, Diagnostics& out) {
  if (oven_load(oven, blank.section, blank.length).capacity() > 0) return true;
  const Length clearance = oven.clearance.value;
  const auto inside = [&](const Given<Length>& size) {
    return sawn(std::max(size.value - 2 * clearance, 0 * mm), shop, Round::down);
  };
  const auto at_least = [&](Length size) { return sawn(size, shop, Round::up); };
  const Printed side = at_least(blank.section + 2 * clearance);
  const Printed length = at_least(blank.length + 2 * clearance);
  const BlankSize* dry = blank.dries_to;
  out.error(Problem::oven_too_small, oven.width.at,
            dry != nullptr ? says::sawn_does_not_lie_in_oven : says::does_not_lie_in_oven, oven.name.value,
            inside(oven.width), inside(oven.depth), inside(oven.height), at_least(blank.section),
            at_least(blank.length))
      .label(oven.clearance.at, says::kept_free_in_oven)
      .hint(dry != nullptr ? say(says::needs_an_oven_or_drying_elsewhere, side, length,
                                 pasted(*dry->dry_section, shop), pasted(*dry->dry_length, shop))
                           : say(says::needs_an_oven, side, length));
  return false;
}

bool large_enough(const OvenFacts& oven, const Shop& shop, const BlankSize& blank, Diagnostics& out) {
  if (!takes(oven, shop, {*blank.dry_section, *blank.dry_length, nullptr}, out)) return false;
  if (!blank.sawn_section || !blank.sawn_length) return true;
  return takes(oven, shop, {*blank.sawn_section, *blank.sawn_length, &blank}, out);
}

}  // namespace

bool ovens_make_sense(const Shop& shop, Diagnostics& out) {
  bool rising = true;
  for (const OvenFacts& oven : shop.ovens) {
    for (std::size_t i = 1; i < oven.calibration.size(); ++i) {
      const CalibrationPair& before = oven.calibration.at(i - 1);
      const CalibrationPair& pair = oven.calibration.at(i);
      const bool dial_rises = pair.dial.value > before.dial.value;
      if (dial_rises && pair.shown.value > before.shown.value) continue;
      rising = false;
      const Given<Temperature>& wrong = dial_rises ? pair.shown : pair.dial;
      const Given<Temperature>& against = dial_rises ? before.shown : before.dial;
      out.error(Problem::calibration_falls, wrong.at, dial_rises ? says::shown_not_rising : says::dial_not_rising,
                precise(wrong.value, shop), precise(against.value, shop), oven.name.value)
          .label(against.at, says::the_one_before)
          .hint(says::sort_by_dial);
    }
  }
  return rising;
}

std::vector<const OvenFacts*> judge_ovens(const Order& order, const Shop& shop, const ResinFacts& resin,
                                          const BlankSize& blank, Diagnostics& out) {
  if (shop.ovens.empty()) {
    out.warning(Problem::oven_missing, treated(order), says::no_oven).hint(says::such_as_an_oven);
    return {};
  }
  Diagnostics lacking;
  std::vector<const OvenFacts*> ovens;
  for (const OvenFacts& oven : shop.ovens) {
    const bool warm = warm_enough(oven, shop, resin, lacking);
    if (!large_enough(oven, shop, blank, lacking) || !warm) continue;
    if (ovens.empty() || !oven.calibration.empty()) ovens.push_back(&oven);
  }
  if (ovens.empty()) {
    out.append(std::move(lacking));
  } else if (ovens.front()->calibration.empty()) {
    out.warning(Problem::calibration_too_short, ovens.front()->name.at, says::no_calibration,
                ovens.front()->name.value, precise(resin.cure_air.value, shop))
        .label(resin.cure_air.at, says::the_cure)
        .hint(says::calibrate_on_both_sides);
  }
  return ovens;
}

std::vector<const OvenFacts*> judge_drying_ovens(const Shop& shop, const BlankSize& blank, Diagnostics& out) {
  const bool dries = std::ranges::any_of(shop.routing, [](const OperationFacts& facts) {
    return facts.is(PlannedWork::drying) && !facts.only_treated.value;
  });
  if (!dries || !blank.sawn_section || !blank.sawn_length) return {};
  Diagnostics lacking;
  std::vector<const OvenFacts*> ovens;
  const OvenFacts* first = nullptr;
  for (const OvenFacts& oven : shop.ovens) {
    if (!takes(oven, shop, {*blank.sawn_section, *blank.sawn_length, &blank}, lacking)) continue;
    if (first == nullptr) first = &oven;
    if (dial_for(oven.calibration, shop.drying.oven.value)) ovens.push_back(&oven);
  }
  if (first == nullptr) out.append(std::move(lacking));
  if (ovens.empty() && first != nullptr) ovens.push_back(first);
  return ovens;
}

void judge_cure(const Cure& cure, const Order& order, const Shop& shop, const ResinFacts& resin, Diagnostics& out) {
  if (cure.core && *cure.core >= cure.air) {
    out.error(Problem::core_not_reached, resin.cure_core->at, says::core_stays_cold, precise(*cure.core, shop),
              precise(cure.air, shop))
        .label(resin.cure_air.at, says::the_air)
        .label(treated(order), says::this_orders_resin);
    return;
  }
  if (!resin.cure_most || cure.total <= resin.cure_most->value) return;
  const Printed most = printed(resin.cure_most->value);
  if (cure.total_likely > resin.cure_most->value) {
    out.error(Problem::cure_too_long, resin.cure_most->at, says::cure_takes_too_long, printed(cure.total_likely),
              most)
        .label(treated(order), says::this_orders_resin)
        .hint(says::thinner_blanks);
    return;
  }
  out.warning(Problem::cure_too_long, resin.cure_most->at, says::cure_may_take_too_long, printed(cure.total), most,
              printed(cure.total_likely))
      .label(treated(order), says::this_orders_resin)
      .hint(says::measure_the_core);
}

}  // namespace blankwright
