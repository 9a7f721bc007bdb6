#include "lengths.h"

#include <algorithm>
#include <cmath>

namespace calendar_rules {
namespace {

Minutes rounded_up(double minutes) { return Minutes{static_cast<long>(std::ceil(minutes - 1e-6))}; }

/// The longest of the orders that a chain is for.
template <class Of>
Minutes longest(const Planned& planned, const Chain& chain, Of of) {
  Minutes most{0};
  for (const std::string& id : chain.orders()) most = std::max(most, of(planned.plans.at(id)));
  return most;
}

Minutes pumps_down(const Planned& planned, const Chain& chain) {
  return longest(planned, chain, [](const Plan& plan) { return plan.pumps_down; });
}

}  // namespace

Minutes drying_time(const Shop& shop, double section_mm) {
  if (section_mm <= 30) return shop.dries_30_mm;
  if (section_mm <= 60) return shop.dries_60_mm;
  return rounded_up(static_cast<double>(shop.dries_60_mm.count()) * std::pow(section_mm / 60, 2));
}

Minutes held(const Planned& planned, const Chain& chain) {
  Minutes most{0};
  for (const Doing& doing : chain.doings) {
    if (operation(planned, doing).planned == Work::vacuum)
      most = std::max(most, doing.run.at.length() - pumps_down(planned, chain));
  }
  return most;
}

Minutes least_length(const Planned& planned, const Chain& chain, const Doing& doing, int pieces) {
  const Operation& op = operation(planned, doing);
  const Shop& shop = planned.shop;
  switch (op.planned) {
    case Work::no:
      break;
    case Work::drying:
      return shop.between_weighings +
             longest(planned, chain, [&](const Plan& plan) { return drying_time(shop, plan.sawn_section_mm); });
    case Work::cooling:
      return shop.cool;
    case Work::vacuum:
      return shop.hold + pumps_down(planned, chain);
    case Work::soak: {
      const Minutes of = std::max(shop.hold, held(planned, chain));
      return rounded_up(static_cast<double>(of.count() * shop.soak_percent) / 100);
    }
    case Work::cure:
      return longest(planned, chain, [](const Plan& plan) { return plan.cures; });
    case Work::glue_setting:
      return shop.glue_sets;
  }
  if (op.turnaround_days) return std::chrono::days{*op.turnaround_days};
  return op.fixed.value_or(Minutes{0}) + pieces * op.per_piece.value_or(Minutes{0});
}

Minutes hands_time(const Operation& op, Minutes length) {
  return op.hands_time.value_or(std::min(Minutes{10}, (length + Minutes{1}) / 2));
}

bool runs_alone(const Planned& planned, const Doing& doing) {
  const Operation& op = operation(planned, doing);
  const bool refused = op.unattended && !*op.unattended;
  const auto oven = std::ranges::find(planned.shop.ovens, doing.run.resource, &Oven::name);
  switch (op.planned) {
    case Work::no:
      return op.unattended.value_or(false) || op.turnaround_days;
    case Work::drying:
      return !refused && oven != planned.shop.ovens.end() && oven->dries_alone;
    case Work::cure:
      return !refused && oven != planned.shop.ovens.end() && oven->cures_alone;
    case Work::vacuum:
      return !refused && planned.shop.pump_alone;
    case Work::cooling:
    case Work::soak:
    case Work::glue_setting:
      return !refused;
  }
  return false;
}

}  // namespace calendar_rules
