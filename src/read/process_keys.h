#pragma once

// Keys of the tables that tell of the shop's process; read_shop.cpp alone makes a file of them.

#include "read/keys.h"
#include "read/process.h"
#include "read/text_forms.h"
#include "read/work_keys.h"

namespace blankwright {

template <>
struct Words<VesselShape> {
  static constexpr std::array<std::string_view, 2> list{"round", "rectangular"};
};
template <>
struct Words<SoakCountsTo> {
  static constexpr std::array<std::string_view, 2> list{"release", "bubbling-end"};
};
template <>
struct Words<HoldFrom> {
  static constexpr std::array<std::string_view, 2> list{"air", "core"};
};

namespace process_limits {
inline const Limits inside = within(20 * mm, 3 * metre);
inline const Limits gap = within(0 * mm, 200 * mm);
inline const Limits heat = within(celsius(20), celsius(200));
inline const Limits days = within(0 * hour, 4000 * 24 * hour);
}  // namespace process_limits

template <>
struct Keys<VesselFacts> {
  static inline const KeyList list{
      key("name", &VesselFacts::name, "of the vessel", within(1, 40)),
      key("shape", &VesselFacts::shape, "seen from above"),
      key("diameter", &VesselFacts::diameter, "inside, of a round vessel", process_limits::inside),
      key("width", &VesselFacts::width, "inside, of a rectangular vessel", process_limits::inside),
      key("depth", &VesselFacts::depth, "inside, front to back, of a rectangular vessel", process_limits::inside),
      key("height", &VesselFacts::height, "inside, from bottom to rim", process_limits::inside),
      key("usable_height", &VesselFacts::usable_height,
          "height to which resin may stand at the start; half the height when left out, for foam",
          process_limits::inside),
      key("free_gas", &VesselFacts::free_gas, "gas in lid, hose and trap, besides the vessel's inside",
          within(0 * litre, 500 * litre)),
      key("piercing", &VesselFacts::piercing, "diameter of a rod that holds the blanks down through the surface",
          within(0 * mm, 500 * mm)),
      key("outages", &VesselFacts::outages, "when it cannot be used", within(0, 200)),
  };
};
template <>
struct Keys<PumpFacts> {
  static inline const KeyList list{
      key("ultimate", &PumpFacts::ultimate, "lowest absolute pressure that it reaches on the empty vessel",
          within(AbsolutePressure::above_zero(0 * pascal), AbsolutePressure::above_zero(90 * kilopascal))),
      key("speed", &PumpFacts::speed, "of the pump at the vessel",
          within(0.1 * litre_per_minute, 10000 * litre_per_minute)),
      key("unattended", &PumpFacts::unattended, "may it run while nobody is there"),
  };
};
template <>
struct Keys<VacuumFacts> {
  static inline const KeyList list{
      key("target", &VacuumFacts::target, "absolute pressure aimed at",
          within(AbsolutePressure::above_zero(10 * pascal), AbsolutePressure::above_zero(100 * kilopascal))),
      key("target_reading", &VacuumFacts::target_reading,
          "reading of the vacuum gauge aimed at, instead of `target`: \"28 inHg\"",
          within(GaugePressure::above_zero(0 * pascal), GaugePressure::above_zero(150 * kilopascal))),
      key("hold", &VacuumFacts::hold, "how long the vacuum is planned to be held", within(0 * hour, 14 * 24 * hour)),
      key("bubbles", &VacuumFacts::bubbles,
          "held until fewer than so many bubbles a blank rise in a minute, for a quarter of an hour",
          within(1, 1000)),
      key("soak", &VacuumFacts::soak, "least soak, of the time from target reached to release",
          within(100 * percent, 2000 * percent)),
      key("soak_counts_to", &VacuumFacts::soak_counts_to,
          "where the time ends that `soak` is a share of: at the release, or when the bubbling ended"),
  };
};
template <>
struct Keys<BathFacts> {
  static inline const KeyList list{
      key("cover", &BathFacts::cover, "resin that still stands above the tops when they have taken up theirs",
          within(0 * mm, 500 * mm)),
      key("gap", &BathFacts::gap, "between blanks, and between blanks and wall", process_limits::gap),
      key("ballast_density", &BathFacts::ballast_density, "of the ballast, inert or stainless",
          within(1500 * kilogram_per_m3, 20000 * kilogram_per_m3)),
      key("ballast_reserve", &BathFacts::ballast_reserve, "ballast beyond what just holds the blanks down",
          within(0 * percent, 1000 * percent)),
      key("filler", &BathFacts::filler, "solid volume of inert filler that is put in to save resin",
          within(0 * litre, 1000 * litre)),
  };
};
template <>
struct Keys<ResinFacts> {
  static inline const KeyList list{
      key("name", &ResinFacts::name, "of the resin, as the shop calls it", within(1, 40)),
      key("density", &ResinFacts::density, "of the liquid", within(500 * kilogram_per_m3, 2000 * kilogram_per_m3)),
      key("activator", &ResinFacts::activator, "dose, of the resin's mass", within(0 * percent, 50 * percent)),
      key("dyes", &ResinFacts::dyes, "dyes for it, from light to dark", within(0, 40)),
      key("cure_air", &ResinFacts::cure_air, "temperature of the oven's air", process_limits::heat),
      key("cure_core", &ResinFacts::cure_core, "temperature that the core has to reach", process_limits::heat),
      key("cure_hold", &ResinFacts::cure_hold, "how long it is held there", within(0 * hour, 14 * 24 * hour)),
      key("hold_from", &ResinFacts::hold_from, "whether the hold counts from the air or the core being there"),
      key("cure_most", &ResinFacts::cure_most, "longest time in the oven", within(0 * hour, 14 * 24 * hour)),
      key("storage_most", &ResinFacts::storage_most, "kept below, once activated", within(celsius(-30), celsius(60))),
      key("storage_life", &ResinFacts::storage_life, "kept at most, once activated", process_limits::days),
      key("shelf_life", &ResinFacts::shelf_life, "kept at most before", process_limits::days),
      key("price", &ResinFacts::price, "of `price_for` of it"),
      key("price_for", &ResinFacts::price_for, "how much that buys", within(0.01 * litre, 1000 * litre)),
      key("in_stock", &ResinFacts::in_stock, "how much of it there is, not activated yet",
          within(0 * litre, 1000 * litre)),
      key("activator_in_stock", &ResinFacts::activator_in_stock, "how much activator there is for it",
          within(0 * kilogram, 100 * kilogram)),
      key("delivery", &ResinFacts::delivery, "from ordering it to having it, for a promise",
          within(0 * hour, 365 * 24 * hour)),
      key("bleed_out", &ResinFacts::bleed_out, "lost in the oven, of the resin taken up",
          within(0 * percent, 90 * percent)),
      key("film", &ResinFacts::film, "thickness of the film left on a drained blank", within(0 * mm, 2 * mm)),
  };
};
template <>
struct Keys<ActivatedFacts> {
  static inline const KeyList list{
      key("resin", &ActivatedFacts::resin, "which resin it is", within(1, 40)),
      key("dye", &ActivatedFacts::dye, "which dye is in it", within(1, 40)),
      key("amount", &ActivatedFacts::amount, "how much there is", within(0 * litre, 1000 * litre)),
      key("on", &ActivatedFacts::on, "day on which it was activated"),
  };
};
template <>
struct Keys<CalibrationPair> {
  static inline const KeyList list{
      key("dial", &CalibrationPair::dial, "what the dial is set to", within(celsius(0), celsius(300))),
      key("shown", &CalibrationPair::shown, "what an independent thermometer shows then",
          within(celsius(0), celsius(300))),
  };
};
template <>
struct Keys<OvenFacts> {
  static inline const KeyList list{
      key("name", &OvenFacts::name, "of the oven", within(1, 40)),
      key("width", &OvenFacts::width, "inside", process_limits::inside),
      key("depth", &OvenFacts::depth, "inside, front to back", process_limits::inside),
      key("height", &OvenFacts::height, "inside, of one shelf where there are several", process_limits::inside),
      key("clearance", &OvenFacts::clearance, "kept free to walls and elements", process_limits::gap),
      key("gap", &OvenFacts::gap, "kept free between blanks", process_limits::gap),
      key("shelves", &OvenFacts::shelves, "how many trays it takes", within(1, 20)),
      key("fan", &OvenFacts::fan, "does a fan move the air"),
      key("calibration", &OvenFacts::calibration, "pairs of dial and true temperature, rising", within(0, 50)),
      key("unattended_drying", &OvenFacts::unattended_drying,
          "may it run while nobody is there, with dry wood in it"),
      key("unattended_curing", &OvenFacts::unattended_curing, "may it, while resin cures in it"),
      key("outages", &OvenFacts::outages, "when it cannot be used", within(0, 200)),
  };
};
template <>
struct Keys<DryingTime> {
  static inline const KeyList list{
      key("thickness", &DryingTime::thickness, "up to this thickness", within(1 * mm, 300 * mm)),
      key("at_least", &DryingTime::time, "in the oven at least", within(0 * hour, 60 * 24 * hour)),
  };
};
template <>
struct Keys<DryingFacts> {
  static inline const KeyList list{
      key("oven", &DryingFacts::oven, "temperature of the oven's air", within(celsius(40), celsius(110))),
      key("times", &DryingFacts::times, "hours by thickness, rising; the usual ones when left out", within(0, 30)),
      key("cool", &DryingFacts::cool, "cooling in a sealed box", within(0 * hour, 48 * hour)),
      key("between_weighings", &DryingFacts::between_weighings, "time between the two weighings",
          within(0.1 * hour, 48 * hour)),
      key("stable", &DryingFacts::stable, "dry when the mass changes by no more than this between the two",
          within(0.001 * percent, 5 * percent)),
      key("air_dry_above", &DryingFacts::air_dry_above, "wetter wood is air-dried first",
          within(0 * percent, 100 * percent)),
      key("sealed_regain", &DryingFacts::sealed_regain,
          "in which dry wood takes up 1 % of moisture though it is sealed", within(1 * hour, 8760 * hour)),
      key("room", &DryingFacts::room, "temperature of the room where dry blanks wait",
          within(celsius(-20), celsius(50))),
      key("room_humidity", &DryingFacts::room_humidity, "relative humidity there", within(1 * percent, 99 * percent)),
  };
};
template <>
struct Keys<UptakeFacts> {
  static inline const KeyList list{
      key("least_fill", &UptakeFacts::least_fill,
          "part of the void space that has to be filled; the low end of what is usual for the wood when left out",
          within(1 * percent, 100 * percent)),
  };
};
template <>
struct Keys<StudStock> {
  static inline const KeyList list{
      key("thread", &StudStock::thread, "designation of the thread"),
      key("length", &StudStock::length, "of the stud or the rod", within(5 * mm, 3 * metre)),
      key("count", &StudStock::count, "how many there are", within(0, 100000)),
  };
};
template <>
struct Keys<CostFacts> {
  static inline const KeyList list{
      key("labour_per_hour", &CostFacts::labour_per_hour, "of hands-on work"),
      key("wood_per_litre", &CostFacts::wood_per_litre, "of a litre of sawn wood"),
      key("stud_each", &CostFacts::stud_each, "of a stud, with its glue"),
      key("per_order", &CostFacts::per_order, "of an order whatever its size"),
  };
};
template <>
struct Keys<PrinterFacts> {
  static inline const KeyList list{
      key("bar_x", &PrinterFacts::bar_x,
          "what 100 mm across the sheet measure when printed, by the bar on true-size sheets",
          within(97 * mm, 103 * mm)),
      key("bar_y", &PrinterFacts::bar_y, "what 100 mm down the sheet measure when printed, likewise",
          within(97 * mm, 103 * mm)),
      key("label_shift_x", &PrinterFacts::label_shift_x,
          "how far to the right labels are to be printed, against where they came out", within(-5 * mm, 5 * mm)),
      key("label_shift_y", &PrinterFacts::label_shift_y,
          "how far down labels are to be printed, against where they came out", within(-5 * mm, 5 * mm)),
  };
};

}  // namespace blankwright
