#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnose/place.h"
#include "measure/instant.h"
#include "measure/money.h"
#include "measure/quantity.h"
#include "measure/thread.h"
#include "read/span.h"

// What is true of the shop's process: drying, bath, vacuum, cure, and what it costs.

namespace blankwright {

enum class VesselShape { round, rectangular };
enum class HoldFrom { air, core };
enum class SoakCountsTo { release, bubbling_end };

/// A vessel for the bath. Round: `diameter`; rectangular: `width` and `depth`; all inside.
struct VesselFacts {
  Given<std::string> name;
  Given<VesselShape> shape = standard_value(VesselShape::round, "the usual pot");
  std::optional<Given<Length>> diameter, width, depth;
  Given<Length> height;
  std::optional<Given<Length>> usable_height;  ///< to which resin may stand; without it half the height
  Given<Volume> free_gas = standard_value(1 * litre, common_practice);
  Given<Length> piercing = standard_value(0 * mm, "nothing pierces the surface");
  std::vector<SpanFacts> outages;
  Place place;
};

struct PumpFacts {
  Given<AbsolutePressure> ultimate = standard_value(AbsolutePressure::above_zero(0.5 * kilopascal), common_practice);
  Given<VolumeFlow> speed = standard_value(40 * litre_per_minute, common_practice);
  Given<bool> unattended = standard_value(false, "nothing runs alone unless the shop says so");
};

struct VacuumFacts {
  Given<AbsolutePressure> target = standard_value(AbsolutePressure::above_zero(5 * kilopascal), common_practice);
  std::optional<Given<GaugePressure>> target_reading;  ///< what the gauge shall read instead; see vacuum()
  Given<Duration> hold = standard_value(6 * hour, "common practice, no source: 5 to 8 h");
  Given<int> bubbles = standard_value(3, common_practice);
  Given<Share> soak = standard_value(200 * percent, common_practice);
  Given<SoakCountsTo> soak_counts_to = standard_value(SoakCountsTo::release, "the longer of the two");
};

struct BathFacts {
  Given<Length> cover = standard_value(25 * mm, common_practice);
  Given<Length> gap = standard_value(5 * mm, common_practice);
  Given<Density> ballast_density = standard_value(7900 * kilogram_per_m3, "stainless steel 1.4301, 7.9 kg/dm³");
  Given<Share> ballast_reserve = standard_value(40 * percent, common_practice);
  Given<Volume> filler = standard_value(0 * litre, "no filler put in");
};

/// A resin by its data sheet.
struct ResinFacts {
  Given<std::string> name;
  Given<Density> density;
  Given<Share> activator = standard_value(0 * percent, "ready to use");
  std::vector<Given<std::string>> dyes;  ///< from light to dark; undyed is lighter still
  Given<Temperature> cure_air;
  std::optional<Given<Temperature>> cure_core;  ///< without it the hold counts from the air
  Given<Duration> cure_hold;
  Given<HoldFrom> hold_from = standard_value(HoldFrom::core, "the cautious reading of a data sheet");
  std::optional<Given<Duration>> cure_most;
  Given<Temperature> storage_most = standard_value(celsius(21), "common practice, no source: 21 to 29 °C");
  std::optional<Given<Duration>> storage_life;  ///< once activated
  std::optional<Given<Duration>> shelf_life;
  std::optional<Given<Money>> price;  ///< of `price_for`
  Given<Volume> price_for = standard_value(1 * litre, "priced by the litre");
  std::optional<Given<Volume>> in_stock;          ///< not activated yet
  std::optional<Given<Mass>> activator_in_stock;  ///< for it
  std::optional<Given<Duration>> delivery;        ///< from ordering it to having it
  Given<Share> bleed_out = standard_value(3 * percent, common_practice);
  Given<Length> film = standard_value(0.1 * mm, common_practice);
  Place place;
};

/// Resin that is activated already and waits for another bath.
struct ActivatedFacts {
  Given<std::string> resin;
  std::optional<Given<std::string>> dye;
  Given<Volume> amount;
  Given<Date> on;
  Place place;
};

/// What the dial says and what an independent thermometer shows.
struct CalibrationPair {
  Given<Temperature> dial, shown;
};

struct OvenFacts {
  Given<std::string> name;
  Given<Length> width, depth, height;
  Given<Length> clearance = standard_value(40 * mm, common_practice);
  Given<Length> gap = standard_value(15 * mm, common_practice);
  Given<int> shelves = standard_value(1, "one tray");
  Given<bool> fan = standard_value(false, "still air, the slower");
  std::vector<CalibrationPair> calibration;
  Given<bool> unattended_drying = standard_value(false, "nothing runs alone unless the shop says so");
  Given<bool> unattended_curing = standard_value(false, "nothing runs alone unless the shop says so");
  std::vector<SpanFacts> outages;
  Place place;
};

/// How long a thickness takes to dry.
struct DryingTime {
  Given<Length> thickness;
  Given<Duration> time;
};

struct DryingFacts {
  Given<Temperature> oven = standard_value(celsius(103), "EN 13183-1 and ASTM D4442, 103 ± 2 °C");
  std::vector<DryingTime> times;  ///< rising; the usual ones when empty
  Given<Duration> cool = standard_value(2 * hour, common_practice);
  Given<Duration> between_weighings = standard_value(2 * hour, "EN 13183-1");
  Given<Share> stable = standard_value(0.1 * percent, "EN 13183-1");
  Given<Share> air_dry_above = standard_value(10 * percent, common_practice);
  Given<Duration> sealed_regain = standard_value(200 * hour, common_practice);  ///< fifty times as long as open
  Given<Temperature> room = standard_value(celsius(20), "a heated room");
  Given<Share> room_humidity = standard_value(50 * percent, "a heated room");
};

struct UptakeFacts {
  std::optional<Given<Share>> least_fill;  ///< of the void space; else the low end of what is usual
};

/// Studs in stock.
struct StudStock {
  Given<Thread> thread;
  Given<Length> length;
  Given<int> count;
};

struct CostFacts {
  std::optional<Given<Money>> labour_per_hour;
  std::optional<Given<Money>> wood_per_litre;  ///< of sawn wood
  std::optional<Given<Money>> stud_each;
  std::optional<Given<Money>> per_order;
};

/// The 100 mm bars of a true-to-size sheet as this printer made them.
struct PrinterFacts {
  Given<Length> bar_x = standard_value(100 * mm, "not measured yet");
  Given<Length> bar_y = standard_value(100 * mm, "not measured yet");
  Given<Length> label_shift_x = standard_value(0 * mm, "not measured yet");
  Given<Length> label_shift_y = standard_value(0 * mm, "not measured yet");
};

}  // namespace blankwright
