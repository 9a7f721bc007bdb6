#include "plan/order/plan_process.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "diagnose/problem.h"
#include "diagnose/says_process.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/process/bath.h"
#include "plan/process/judge_bath.h"
#include "plan/process/judge_cure.h"
#include "plan/process/judge_vacuum.h"
#include "plan/tables/wood.h"
#include "plan/wood/dryness.h"
#include "plan/wood/judge_wood.h"

namespace blankwright {
namespace {

/// The vessel in which the nominal vacuum is worked out: the first that takes a blank of this kind at all.
const VesselFacts* vessel_for(const Shop& shop, const OrderPlan& plan) {
  for (const VesselFacts& vessel : shop.vessels) {
    for (const Stance stance : {Stance::standing, Stance::lying}) {
      if (bath_layout(vessel, shop.bath, *plan.blank.dry_section, *plan.blank.dry_length, stance, 1).capacity() > 0) {
        return &vessel;
      }
    }
  }
  return nullptr;
}

void plan_vacuum(OrderPlan& plan, const Shop& shop, const VesselFacts& vessel, Diagnostics& out) {
  const Length filled = usable_height(vessel);
  plan.process.vacuum = plan.keep_working(vacuum({.altitude = shop.altitude,
                                                  .facts = shop.vacuum,
                                                  .pump = shop.pump,
                                                  .gas = gas_above(vessel, filled),
                                                  .resin_head = filled,
                                                  .resin_density = plan.process.resin->density}));
  judge_boiling(*plan.process.vacuum, shop, out);
}

/// Blanks of an order whose weighings showed that they are dry.
struct WeighedDry {
  int count = 0;
  Mass mass;      ///< of all of them
  Volume volume;  ///< of all; the nominal one for those that were not measured
  Length length;  ///< mean
};

/// Did its dry weighings count? One that was in a bath has passed that gate; one that is still in the oven, or hot,
/// was dry when it was weighed.
bool is_dry(const BlankState& blank, const Drying& planned, const DryingFacts& facts, Volume volume) {
  if (blank.dry.empty() || blank.stage >= Stage::scrapped || blank.dry.back().net >= cell_wall * volume) return false;
  const auto seen = dryness(blank, volume, planned, facts, blank.dry.back().at);
  return !seen || !seen->holds() || seen->answer == DryAnswer::in_oven || seen->answer == DryAnswer::hot;
}

/// Is a bath still to be planned for one whose own size is known?
bool measured_waits(const Record& record) {
  return std::ranges::any_of(record.blanks, [&](const BlankState& blank) {
    return blank.dry_size && !blank.is_over() && is_to_be_bathed(record, blank) &&
           std::ranges::find(record.replaced, *blank.id) == record.replaced.end();
  });
}

WeighedDry weighed_dry(const Record& record, const BlankSize& nominal, const Drying& planned,
                       const DryingFacts& facts) {
  WeighedDry seen;
  for (const BlankState& blank : record.blanks) {
    const Volume volume = *dry_volume(blank, nominal);
    if (!is_dry(blank, planned, facts, volume)) continue;
    seen.mass += blank.dry.back().net;
    seen.volume += volume;
    seen.length += blank.dry_size && blank.dry_size->length ? *blank.dry_size->length : *nominal.dry_length;
    ++seen.count;
  }
  if (seen.count > 0) seen.length = seen.length / seen.count;
  return seen;
}

std::optional<Spread> gain_seen(const Record& record, std::string_view species, WoodCondition condition) {
  for (const UptakeSeen& seen : record.uptake) {
    if (seen.species == species && seen.condition == name_of(condition)) return seen.wet;
  }
  return std::nullopt;
}

/// Of a blank as it was planned, whatever was measured since.
UptakeInput nominal_uptake(const OrderPlan& plan, const Order& order, const Shop& shop, Density sound) {
  return {.section = *plan.blank.dry_section,
          .length = *plan.blank.dry_length,
          .species = plan.species,
          .sound = sound,
          .measured = order.wood.dry_density,
          .condition = order.wood.condition,
          .resin = *plan.process.resin,
          .facts = shop.uptake,
          .air_removed = plan.process.vacuum->air_removed,
          .seen = {}};
}

void plan_uptake(OrderPlan& plan, const Order& order, const Shop& shop, const Record& record, Density sound) {
  UptakeInput in = nominal_uptake(plan, order, shop, sound);
  const WeighedDry weighed = weighed_dry(record, plan.blank, plan.process.drying, shop.drying);
  const bool known = weighed.count > 0;
  if (known) {
    const Area section = weighed.volume / weighed.length / weighed.count;
    plan.process.measured_section = std::sqrt(section / mm2) * mm;
    plan.process.measured_length = weighed.length;
    in.section = *plan.process.measured_section;
    in.length = weighed.length;
    in.measured = Given<Density>{
        weighed.mass / weighed.volume, Origin::entry, {}, fmt::format("register, {} weighed dry", weighed.count)};
  }
  in.seen = gain_seen(record, plan.species, order.wood.condition.value);
  plan.process.uptake = plan.keep_working(uptake(in));
  plan.figures.set(Figure::uptake_basis, known ? "measured" : "nominal");
}

const OvenFacts* oven_named(const std::string& name, const std::vector<OvenThatDoes>& ovens) {
  const auto found = std::ranges::find(ovens, name, [](const OvenThatDoes& one) { return one.oven->name.value; });
  return found == ovens.end() ? nullptr : found->oven;
}

void set_drying_dial(OrderPlan& plan, const OvenFacts& oven, const Shop& shop) {
  const auto dial = dial_for(oven.calibration, plan.process.drying.oven);
  if (!dial) return;
  Worked<Temperature> drying_dial{*dial, {}};
  drying_dial.step(Figure::drying_dial,
                   phrase(Term::by_the_oven_calibration, *dial, {term(Term::air, shop.drying.oven).expression()}));
  plan.keep_working(std::move(drying_dial));
}

/// By the blank as it was planned: a load that was in for long enough by its card stays cured, whatever is weighed
/// later. A further oven is one of them where nothing speaks against the cure in it.
void plan_cure(OrderPlan& plan, const Order& order, const Shop& shop, const Record& record, Density sound,
               Diagnostics& out) {
  const Process& p = plan.process;
  const std::vector<const OvenFacts*> ovens = judge_ovens(order, shop, *p.resin, plan.blank, out);
  if (ovens.empty()) return;
  const Uptake u = uptake(nominal_uptake(plan, order, shop, sound)).value;
  const Volume resin = u.resin_high / p.resin->density.value;
  const auto cured_in = [&](const OvenFacts& oven) {
    return cure({.oven = oven,
                 .resin = *p.resin,
                 .section = *plan.blank.dry_section,
                 .length = *plan.blank.dry_length,
                 .uptake = u.resin_high / u.dry_mass,
                 .resin_part = std::min(resin / u.dry_volume, 1.0) * whole,
                 .dry_density = u.dry_density,
                 .start = shop.drying.room.value});
  };
  for (const OvenFacts* oven : ovens) {
    Diagnostics against;
    const Cure there = cured_in(*oven).value;
    judge_cure(there, order, shop, *p.resin, against);
    if (oven == ovens.front() || against.all().empty()) plan.process.ovens.push_back({oven, there});
  }
  const OvenFacts* named = oven_named(record.cure_oven, p.ovens);
  const OvenFacts& oven = named != nullptr ? *named : *ovens.front();
  plan.process.cure = plan.keep_working(cured_in(oven));
  plan.figures.set(Figure::cure_oven, oven.name.value);
  const OvenFacts* dries = oven_named(record.drying_oven, p.ovens);
  set_drying_dial(plan, dries != nullptr ? *dries : oven, shop);
  judge_cure(*plan.process.cure, order, shop, *p.resin, out);
}

void plan_drying_ovens(OrderPlan& plan, const Shop& shop, Diagnostics& out) {
  for (const OvenFacts* oven : judge_drying_ovens(shop, plan.blank, out)) plan.process.ovens.push_back({oven, {}});
}

int most_room(const OrderPlan& plan, const Shop& shop) {
  int most = 0;
  for (const VesselFacts& vessel : shop.vessels) {
    most =
        std::max(most, bath_capacity(vessel, shop.bath, *plan.process.resin, bath_blank(plan.process, plan.blank)));
  }
  return most;
}

/// By what was measured. Where that finds no room but lies in its bath all the same, the rest is as it was planned.
void plan_bath_room(OrderPlan& plan, const Order& order, const Shop& shop, const Record& record, Density sound) {
  OrderPlan measured = plan;
  plan_uptake(measured, order, shop, record, sound);
  measured.process.bath_room = most_room(measured, shop);
  if (measured.process.bath_room > 0 || measured_waits(record)) {
    plan = std::move(measured);
    return;
  }
  Record as_planned = record;
  as_planned.blanks.clear();
  plan_uptake(plan, order, shop, as_planned, sound);
  plan.process.bath_room = most_room(plan, shop);
}

/// What is left for blanks that were in a bath and are not cured is planned by the vessel; false where there is none.
bool judge_not_cured(const Order& order, const Shop& shop, const Record& record, Diagnostics& out) {
  const auto count = std::ranges::count_if(record.blanks, [](const BlankState& blank) {
    return blank.stage >= Stage::in_bath && blank.stage <= Stage::in_oven;
  });
  if (count == 0 || !shop.vessels.empty()) return true;
  out.error(Problem::vessel_missing, order.treatment->place, says::vessel_gone, count).hint(says::such_as_a_pot);
  return false;
}

}  // namespace

bool plan_process(OrderPlan& plan, const Order& order, const Shop& shop, const Record& record, Diagnostics& out) {
  if (!plan.blank.dry_section || !plan.blank.dry_length) return true;
  const int before = out.errors();
  plan.process.drying =
      plan.keep_working(drying({.section = plan.blank.sawn_section.value_or(*plan.blank.dry_section),
                                .moisture = order.wood.moisture,
                                .facts = shop.drying}));
  judge_drying(plan.process.drying, order, shop, out);
  if (!order.treatment) {
    plan_drying_ovens(plan, shop, out);
    return out.errors() == before;
  }
  if (!judge_not_cured(order, shop, record, out)) return false;
  const ResinFacts* resin = judge_treatment(order, shop, out);
  const auto sound = judge_density(order.wood, out);
  const VesselFacts* vessel = resin != nullptr && sound ? vessel_for(shop, plan) : nullptr;
  if (vessel == nullptr) plan_drying_ovens(plan, shop, out);
  if (resin == nullptr || !sound) return out.errors() == before;
  plan.process.resin = resin;
  if (vessel != nullptr) {
    plan_vacuum(plan, shop, *vessel, out);
    plan_bath_room(plan, order, shop, record, *sound);
    plan_cure(plan, order, shop, record, *sound, out);
  }
  if (plan.process.bath_room == 0) {
    judge_vessel(plan.process.measured_section.value_or(*plan.blank.dry_section),
                 plan.process.measured_length.value_or(*plan.blank.dry_length), order, shop, out);
  } else {
    judge_float(bath_blank(plan.process, plan.blank), order, shop, *plan.process.resin, out);
  }
  return out.errors() == before;
}

}  // namespace blankwright
