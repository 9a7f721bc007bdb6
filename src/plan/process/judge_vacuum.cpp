#include "plan/process/judge_vacuum.h"

#include <algorithm>
#include <cmath>

#include "diagnose/problem.h"
#include "diagnose/says_process.h"
#include "plan/tables/air.h"

namespace blankwright {
namespace {

struct Written {
  Stress unit;
  PrintedUnit name;
  double step;  ///< to which a pressure to paste is rounded, in the unit
};

Written written(UnitSystem system) {
  return system == UnitSystem::metric ? Written{kilopascal, PrintedUnit::kPa, 0.1}
                                      : Written{inch_of_mercury, PrintedUnit::inHg, 0.01};
}

Printed pasted(Stress pressure, const Shop& shop, Round round) {
  const Written w = written(shop.units.value);
  return printed(decimal(rounded(pressure / w.unit, w.step, round), 2), w.name);
}

Printed in_units(Stress pressure, const Shop& shop) {
  return printed(AbsolutePressure::above_zero(pressure), shop.units.value);
}

/// An absolute pressure that this pump reaches in reasonable time: twice its ultimate, or half-way to the air's where
/// that is less.
Stress reachable(const Shop& shop, AbsolutePressure air) {
  const Stress ultimate = shop.pump.ultimate.value - AbsolutePressure{};
  return std::min(2 * ultimate, (ultimate + (air - AbsolutePressure{})) / 2);
}

/// How to write a target that this pump reaches, the way in which the shop wrote its own.
Saying target_to_paste(const Shop& shop, AbsolutePressure air) {
  const Stress target = reachable(shop, air);
  return shop.vacuum.target_reading ? say(says::assigned, Keyword{"target_reading"},
                                          pasted((air - AbsolutePressure{}) - target, shop, Round::down))
                                    : say(says::assigned, Keyword{"target"}, pasted(target, shop, Round::up));
}

Saying at_altitude(const Shop& shop) {
  const Length altitude = shop.altitude.value;
  return shop.units.value == UnitSystem::metric ? say(says::metres, decimal(std::round(altitude / metre), 0))
                                                : say(says::feet, decimal(std::round(altitude / foot), 0));
}

}  // namespace

bool judge_vacuum(const Shop& shop, Diagnostics& out) {
  const VacuumFacts& facts = shop.vacuum;
  const AbsolutePressure air = standard_atmosphere(shop.altitude.value);
  const AbsolutePressure target = vacuum_target(facts, air);
  const AbsolutePressure ultimate = shop.pump.ultimate.value;
  const Printed full = in_units(air - AbsolutePressure{}, shop);
  if (facts.target_reading && target <= AbsolutePressure{}) {
    out.error(Problem::gauge_beyond_atmosphere, facts.target_reading->at, says::gauge_reads_more_than_air,
              in_units(facts.target_reading->value - GaugePressure{}, shop), at_altitude(shop), full)
        .label(shop.altitude.at, says::the_altitude)
        .hint(says::look_at_both, target_to_paste(shop, air));
    return false;
  }
  const Place& aim = facts.target_reading ? facts.target_reading->at : facts.target.at;
  if (target >= air) {
    out.error(Problem::gauge_beyond_atmosphere, aim, says::target_is_no_vacuum,
              in_units(target - AbsolutePressure{}, shop), at_altitude(shop), full)
        .label(shop.altitude.at, says::the_altitude)
        .hint(target_to_paste(shop, air));
    return false;
  }
  if (target <= ultimate) {
    const Place& pump = shop.pump.ultimate.at;
    out.error(Problem::pump_too_weak, aim.source ? aim : pump, says::pump_does_not_reach,
              in_units(ultimate - AbsolutePressure{}, shop), in_units(target - AbsolutePressure{}, shop))
        .label(aim.source ? pump : Place{}, says::the_pump)
        .hint(says::aim_at_what_it_reaches, target_to_paste(shop, air));
    return false;
  }
  return true;
}

void judge_boiling(const Vacuum& vacuum, const Shop& shop, Diagnostics& out) {
  const Temperature room = shop.drying.room.value;
  if (vacuum.water_boils && *vacuum.water_boils >= room) return;
  const VacuumFacts& facts = shop.vacuum;
  const UnitSystem units = shop.units.value;
  const Printed under = printed(vacuum.target, units);
  out.note(Problem::resin_or_water_boils, facts.target_reading ? facts.target_reading->at : facts.target.at,
           vacuum.water_boils
               ? say(says::water_boils, under, printed(*vacuum.water_boils, units), printed(room, units))
               : say(says::ice_boils, under, printed(room, units)))
      .label(shop.drying.room.at, says::the_room);
}

}  // namespace blankwright
