#pragma once

#include <array>
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/diagnostics.h"
#include "entries/blank_id.h"
#include "entries/entry_kind.h"
#include "measure/drill.h"
#include "measure/instant.h"
#include "measure/quantity_text.h"
#include "read/process.h"
#include "read/work.h"

namespace blankwright {

/// How many came out good of how many started: "8 of 10".
struct Counts {
  int good = 0;
  int started = 0;
};

enum class BoringMethod { press, lathe };
/// Wire hole and end mark need as much behind the tail; common practice, no source.
constexpr Length least_tail_waste = 8 * mm;

/// What is left on, and what is taken off, between the states of a blank.
struct AllowanceFacts {
  Given<Length> finish = standard_value(1.5 * mm, common_practice);
  Given<Length> bow = standard_value(0.5 * mm, common_practice);
  Given<Length> section_tolerance = standard_value(0.5 * mm, common_practice);
  Given<Length> squaring = standard_value(3 * mm, common_practice);
  Given<Length> planing = standard_value(1 * mm, common_practice);
  Given<Length> saw_increment = standard_value(1 * mm, common_practice);
  Given<Length> kerf = standard_value(3 * mm, common_practice);
  Given<Length> end_trim = standard_value(20 * mm, common_practice);
  Given<Length> seat_facing = standard_value(3 * mm, common_practice);
  Given<Length> end_squaring = standard_value(3 * mm, common_practice);
  Given<Length> tail_waste = standard_value(10 * mm, common_practice);
};

/// How true a bore is. Tilts are given as what a rod deviates over 100 mm.
struct BoringFacts {
  Given<BoringMethod> method = standard_value(BoringMethod::press, common_practice);
  Given<Length> offset = standard_value(0.5 * mm, common_practice);
  Given<Length> tilt_per_100mm = standard_value(0.6 * mm, "common practice, no source: 0.2 to 0.5 mm per 50 mm");
  Given<Length> end_squareness_per_100mm = standard_value(0.2 * mm, common_practice);
  std::optional<Given<Length>> jig_offset;
  std::optional<Given<Length>> jig_tilt_per_100mm;
  Given<Angle> drill_point = standard_value(118 * degree, "usual point of a twist drill");
  std::vector<Given<Drill>> drills;
  Given<Length> reservoir = standard_value(6 * mm, common_practice);
  Given<Length> least_web = standard_value(5 * mm, common_practice);
  Given<Length> least_wall = standard_value(3 * mm, common_practice);
};

struct LatheFacts {
  Given<RotationalSpeed> fastest = standard_value(2500 * per_minute, "common practice, no source: 2500 to 3000 rpm");
};

struct GlueFacts {
  Given<Length> line = standard_value(0.25 * mm, "common practice, no source: 0.25 to 0.5 mm");
  Given<Stress> shear_strength = standard_value(2 * megapascal, "assumed; common practice, no source: 2 to 6 MPa");
  Given<bool> shear_measured = standard_value(false, "assumed until a witness was pulled");
  Given<Stress> wood_shear_strength =
      standard_value(4 * megapascal, "assumed; common practice, no source: 2 to 6 MPa");
  Given<Duration> set_time = standard_value(24 * hour, common_practice);
  Given<int> safety_factor = standard_value(3, common_practice);
  Given<Share> assembly_factor = standard_value(150 * percent, common_practice);
  Given<Share> least_embedded = standard_value(300 * percent, common_practice);
  /// Rods glued along the grain of structural timber are kept 2.5 diameters from the surface, for lasting loads (DIN
  /// EN 1995-1-1/NA, from memory). A handle cannot have that.
  Given<Share> least_edge = standard_value(150 * percent, "1.5 diameters; common practice, no source");
};

struct YieldFacts {
  std::optional<Given<Counts>> expected;
  Given<Share> confidence = standard_value(90 * percent, common_practice);
  Given<int> spares = standard_value(1, common_practice);
};

/// Where a register's IDs begin.
struct Series {
  BlankId first = BlankId::nth(0);
};

/// With what a date is worked out that can be promised.
struct PromiseFacts {
  Given<Share> confidence = standard_value(90 * percent, common_practice);
  Given<Share> spread = standard_value(20 * percent, "assumed; common practice, no source");
  std::optional<Given<Duration>> wood_delivery;
};

/// What the shop says of the register; without a place it stands beside the shop file.
struct RegisterFacts {
  std::optional<Given<std::string>> file;      ///< from the shop file's folder
  std::optional<Given<std::string>> database;  ///< connection parameters of a PostgreSQL database
  std::optional<Given<Series>> series;
};

/// What is true of the shop, whatever the order.
struct Shop {
  // Written once, in read_shop.cpp: whoever holds one would compile them otherwise, and they take long.
  Shop();
  Shop(const Shop&);
  Shop(Shop&&) noexcept;
  Shop& operator=(const Shop&);
  Shop& operator=(Shop&&) noexcept;
  ~Shop();

  Source source;
  Given<std::string> name;
  Given<Zone> zone;
  Given<UnitSystem> units = standard_value(UnitSystem::metric, "metric unless the shop says otherwise");
  std::optional<Given<std::string>> sheet_template;
  std::optional<Given<std::string>> jobs;  ///< folder of the job files, from the shop file's
  RegisterFacts register_facts;
  WeekFacts hours;
  AllowanceFacts allowances;
  BoringFacts boring;
  LatheFacts lathe;
  GlueFacts glue;
  YieldFacts yield;
  PromiseFacts promise;
  Given<Length> altitude = standard_value(0 * mm, "sea level until the shop says otherwise");
  std::vector<VesselFacts> vessels;
  PumpFacts pump;
  VacuumFacts vacuum;
  BathFacts bath;
  std::vector<ResinFacts> resins;
  std::vector<ActivatedFacts> activated;
  std::vector<OvenFacts> ovens;
  DryingFacts drying;
  UptakeFacts uptake;
  std::vector<StudStock> studs;
  CostFacts costs;
  PrinterFacts printer;
  std::vector<PersonFacts> people;  ///< none: everybody works the shop's hours
  std::vector<MachineFacts> machines;
  std::vector<OperationFacts> routing;
  Place place;
};

/// Reads a shop file. What is wrong goes to `out`, all of it; then there is no shop.
std::optional<Shop> read_shop(const Source& source, Diagnostics& out);

}  // namespace blankwright
