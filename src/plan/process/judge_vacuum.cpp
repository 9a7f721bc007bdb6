#include "plan/process/judge_vacuum.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diagnose/problem.h"
#include "plan/tables/air.h"

namespace blankwright {
namespace {

struct Written {
  Stress unit;
  const char* name;
  double step;  ///< to which a pressure to paste is rounded, in the unit
};

Written written(UnitSystem system) {
  return system == UnitSystem::metric ? Written{kilopascal, "kPa", 0.1} : Written{inch_of_mercury, "inHg", 0.01};
}

std::string pasted(Stress pressure, const Shop& shop, Round round) {
  const Written w = written(shop.units.value);
  return fmt::format("{:.2f} {}", rounded(pressure / w.unit, w.step, round), w.name);
}

std::string in_units(Stress pressure, const Shop& shop) {
  return text(AbsolutePressure::above_zero(pressure), shop.units.value);
}

/// An absolute pressure that this pump reaches in reasonable time: twice its ultimate, or half-way to the air's where
/// that is less.
Stress reachable(const Shop& shop, AbsolutePressure air) {
  const Stress ultimate = shop.pump.ultimate.value - AbsolutePressure{};
  return std::min(2 * ultimate, (ultimate + (air - AbsolutePressure{})) / 2);
}

/// How to write a target that this pump reaches, the way in which the shop wrote its own.
std::string target_to_paste(const Shop& shop, AbsolutePressure air) {
  const Stress target = reachable(shop, air);
  return shop.vacuum.target_reading
             ? fmt::format("target_reading = \"{}\"", pasted((air - AbsolutePressure{}) - target, shop, Round::down))
             : fmt::format("target = \"{}\"", pasted(target, shop, Round::up));
}

std::string at_altitude(const Shop& shop) {
  const Length altitude = shop.altitude.value;
  return shop.units.value == UnitSystem::metric ? fmt::format("{:.0f} m", std::round(altitude / metre) + 0.0)
                                                : fmt::format("{:.0f} ft", std::round(altitude / foot) + 0.0);
}

}  // namespace

bool judge_vacuum(const Shop& shop, Diagnostics& out) {
  const VacuumFacts& facts = shop.vacuum;
  const AbsolutePressure air = standard_atmosphere(shop.altitude.value);
  const AbsolutePressure target = vacuum_target(facts, air);
  const AbsolutePressure ultimate = shop.pump.ultimate.value;
  const std::string full = in_units(air - AbsolutePressure{}, shop);
  if (facts.target_reading && target <= AbsolutePressure{}) {
    out.error(Problem::gauge_beyond_atmosphere, facts.target_reading->at,
              fmt::format("no vacuum gauge reads {} at {}: the air's whole pressure is {} there; the altitude is "
                          "wrong, or the gauge",
                          in_units(facts.target_reading->value - GaugePressure{}, shop), at_altitude(shop), full))
        .label(shop.altitude.at, "the altitude")
        .hint("look at both; at this altitude, with this pump: " + target_to_paste(shop, air));
    return false;
  }
  const Place& aim = facts.target_reading ? facts.target_reading->at : facts.target.at;
  if (target >= air) {
    out.error(Problem::gauge_beyond_atmosphere, aim,
              fmt::format("a target of {} is no vacuum at {}, where the air has {}",
                          in_units(target - AbsolutePressure{}, shop), at_altitude(shop), full))
        .label(shop.altitude.at, "the altitude")
        .hint(target_to_paste(shop, air));
    return false;
  }
  if (target <= ultimate) {
    const Place& pump = shop.pump.ultimate.at;
    out.error(Problem::pump_too_weak, aim.source ? aim : pump,
              fmt::format("pump goes down to {} at best and never reaches the target of {}",
                          in_units(ultimate - AbsolutePressure{}, shop), in_units(target - AbsolutePressure{}, shop)))
        .label(aim.source ? pump : Place{}, "the pump")
        .hint("aim at what it reaches: " + target_to_paste(shop, air));
    return false;
  }
  return true;
}

void judge_boiling(const Vacuum& vacuum, const Shop& shop, Diagnostics& out) {
  const Temperature room = shop.drying.room.value;
  if (vacuum.water_boils && *vacuum.water_boils >= room) return;
  const std::string at =
      vacuum.water_boils ? "at " + text(*vacuum.water_boils, shop.units.value) : "even where it freezes";
  const VacuumFacts& facts = shop.vacuum;
  out.note(
         Problem::resin_or_water_boils, facts.target_reading ? facts.target_reading->at : facts.target.at,
         fmt::format("under {} free water boils {}, and the room has {}: wood that is not dry bubbles for hours, and "
                     "foam is no proof that air still comes",
                     text(vacuum.target, shop.units.value), at, text(room, shop.units.value)))
      .label(shop.drying.room.at, "the room");
}

}  // namespace blankwright
