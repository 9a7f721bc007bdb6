#include "plan/order/process.h"

namespace blankwright {

const Cure& cure_in(const Process& process, const std::string& oven) {
  for (const OvenThatDoes& one : process.ovens) {
    if (one.cure && one.oven->name.value == oven) return *one.cure;
  }
  return process.cure.value();
}

BathBlanks bath_blank(const Process& process, const BlankSize& planned) {
  const Uptake& u = *process.uptake;
  return {.count = 1,
          .section = process.measured_section.value_or(*planned.dry_section),
          .length = process.measured_length.value_or(*planned.dry_length),
          .dry_mass = u.dry_mass,
          .resin_low = u.resin_low,
          .resin_high = u.resin_high};
}

PlannedDurations planned_durations(const Process& process, const Shop& shop) {
  PlannedDurations d;
  d.treated = process.uptake.has_value();
  // A blank that is given squared is dry and has been through it.
  if (process.drying.least > Duration{}) d.drying = process.drying.least + shop.drying.between_weighings.value;
  d.cooling = process.drying.cool;
  d.glue_setting = shop.glue.set_time.value;
  if (process.vacuum) {
    d.vacuum = process.vacuum->pump_down + process.vacuum->hold;
    d.soak = process.vacuum->least_soak;
    if (shop.vacuum.soak_counts_to.value == SoakCountsTo::release) d.soak_share = shop.vacuum.soak.value / whole;
    d.pump_down = process.vacuum->pump_down;
  }
  if (process.cure) d.cure = process.cure->total;
  return d;
}

}  // namespace blankwright
