#include "plan/process/vacuum.h"
#include "diagnose/problem.h"
#include "plan/figure/figure.h"

#include <doctest/doctest.h>

#include <cmath>

#include "judging.h"
#include "plan/process/judge_vacuum.h"
#include "planning.h"
#include "pressures.h"

using namespace blankwright;

namespace {

/// A shop with its own ways; what a test is about is set in it.
struct VacuumCase {
  VacuumFacts facts;
  PumpFacts pump;
  VacuumInput in{.altitude = given(0 * metre),
                 .facts = facts,
                 .pump = pump,
                 .gas = 20 * litre,
                 .resin_head = 0 * mm,
                 .resin_density = given(1040 * kilogram_per_m3)};

  void reading(Stress shown) { facts.target_reading = given(GaugePressure::above_zero(shown)); }
  Vacuum worked() const { return vacuum(in).value; }
};

}  // namespace

TEST_CASE("a vacuum gauge at sea level leaves the pressure and the air that the tables give") {
  // NIST SP 811 (2008) app. B.8: 1 inHg, conventional = 3386.389 Pa. 101325 Pa less the reading, and Boyle's part of
  // it, without a head of resin.
  struct Row {
    double inches, pascals, left, boils;
  };
  for (const Row& row : {Row{25, 16665, 0.1645, 56.17}, Row{28, 6506, 0.0642, 37.65}, Row{29, 3120, 0.0308, 24.7}}) {
    CAPTURE(row.inches);
    VacuumCase c;
    c.reading(row.inches * inch_of_mercury);
    const Vacuum v = c.worked();
    CHECK(std::abs(pascals(v.target) - row.pascals) <= 1);
    CHECK(std::abs(1 - v.air_removed / whole - row.left) <= 0.0001);
    CHECK(v.reading / inch_of_mercury == doctest::Approx(row.inches).epsilon(1e-9));
    REQUIRE(v.water_boils.has_value());
    CHECK(std::abs((*v.water_boils - ice_point) / kelvin - row.boils) <= 0.05);
  }
}

TEST_CASE("the same vacuum reads less on a gauge in the mountains") {
  // At 1609.344 m (834.3 hPa by the US Standard Atmosphere 1976) no gauge reads more than 24.64 inHg, and 24 inHg
  // there leave 0.0259 of the air: less than 28 inHg at sea level, 0.0642.
  VacuumCase high;
  high.in.altitude = given(1609.344 * metre);
  high.reading(24 * inch_of_mercury);
  CHECK(std::abs(pascals(high.worked().atmosphere) / 3386.389 - 24.64) <= 0.01);
  CHECK(std::abs(1 - high.worked().air_removed / whole - 0.0259) <= 0.0001);
  VacuumCase low;
  low.reading(28 * inch_of_mercury);
  CHECK(high.worked().air_removed > low.worked().air_removed);

  // An absolute target is the same everywhere; its reading is not.
  VacuumCase target;
  target.facts.target = given(absolute(5 * kilopascal));
  CHECK(target.worked().reading / kilopascal == doctest::Approx(101.325 - 5).epsilon(1e-9));
  target.in.altitude = given(1500 * metre);
  CHECK(std::abs(target.worked().reading / kilopascal - (84.560 - 5)) <= 0.002);
}

TEST_CASE("the lowest blank keeps more air, for the resin's head is on its pores") {
  // By hand: 1040 kg/m³ · 9.80665 m/s² · 0.2 m = 2039.8 Pa, on 5000 Pa; 1 − 7039.8/101325 = 0.93052.
  VacuumCase c;
  c.facts.target = given(absolute(5 * kilopascal));
  c.in.resin_head = 200 * mm;
  const Vacuum v = c.worked();
  CHECK(std::abs(pascals(v.pore_pressure) - 7039.8) <= 0.1);
  CHECK(std::abs(v.air_removed / whole - 0.93052) <= 0.00001);
  CHECK(pascals(v.target) == doctest::Approx(5000));
}

TEST_CASE("air that the pores hold under so deep a resin that nothing leaves is none removed") {
  VacuumCase c;
  c.facts.target = given(absolute(100 * kilopascal));
  c.in.resin_head = 400 * mm;  // 4080 Pa, on 100000: more than the air's 101325
  CHECK(c.worked().air_removed == Share{});
}

TEST_CASE("pumping down takes the time of the pump's formula") {
  // t = (V/S) ln((p0 − pu)/(p − pu)), textbook: 20 l at 85 l/min to 2.5 kPa, 52.3 s; with 1 kPa ultimate 59.3 s.
  VacuumCase c;
  c.facts.target = given(absolute(2.5 * kilopascal));
  c.pump.speed = given(85 * litre_per_minute);
  c.pump.ultimate = given(absolute(1 * kilopascal));
  CHECK(std::abs(c.worked().pump_down / second - 59.3) <= 0.1);
  c.pump.ultimate = given(absolute(0 * pascal));
  CHECK(std::abs(c.worked().pump_down / second - 52.3) <= 0.1);

  // Step by step instead: the pump takes S (1 − pu/p) of gas at p a second.
  c.pump.ultimate = given(absolute(1 * kilopascal));
  double p = 101325;
  double t = 0;
  const double step = 1e-4;
  while (p > 2500) {
    p -= step * (85.0 / 60 / 20) * (p - 1000);
    t += step;
  }
  CHECK(c.worked().pump_down / second == doctest::Approx(t).epsilon(0.0005));
}

TEST_CASE("the soak is at least twice the vacuum, or by the shop's factor") {
  // Common practice, no source: the soak lasts at least as long as the vacuum, often twice as long.
  VacuumCase c;
  c.facts.hold = given(5 * hour);
  CHECK(c.worked().hold / hour == doctest::Approx(5));
  CHECK(c.worked().least_soak / hour == doctest::Approx(10));
  c.facts.soak = given(350 * percent);
  CHECK(c.worked().least_soak / hour == doctest::Approx(17.5));
}

TEST_CASE("a deeper vacuum takes more air out, takes longer, and reads more") {
  VacuumCase c;
  c.in.resin_head = 120 * mm;
  std::optional<Vacuum> before;
  for (double target = 60; target > 0.7; target *= 0.8) {
    CAPTURE(target);
    c.facts.target = given(absolute(target * kilopascal));
    const Vacuum v = c.worked();
    if (before) {
      CHECK(v.air_removed > before->air_removed);
      CHECK(v.pump_down > before->pump_down);
      CHECK(v.reading > before->reading);
      CHECK(*v.water_boils < *before->water_boils);
    }
    before = v;
  }
}

TEST_CASE("where water boils even at 0 °C no boiling point is printed") {
  VacuumCase c;
  c.facts.target = given(absolute(300 * pascal));
  c.pump.ultimate = given(absolute(50 * pascal));
  const auto worked = vacuum(c.in);
  CHECK_FALSE(worked.value.water_boils.has_value());
  for (const Step& step : worked.steps) CHECK(step.figure != Figure::vacuum_water_boils);
}

namespace {

/// The shop with what the hint says pasted into it.
Shop pasted(Shop shop, const Diagnostic& said) {
  const std::string quoted = to_paste(said).front(), value = quoted.substr(1, quoted.size() - 2);
  CAPTURE(value);
  if (shop.vacuum.target_reading) {
    REQUIRE(said.hint_text().find("target_reading = \"") != std::string::npos);
    const auto reading = read_quantity<GaugePressure>(value);
    REQUIRE(reading.has_value());
    shop.vacuum.target_reading = given(*reading);
  } else {
    const auto target = read_quantity<AbsolutePressure>(value);
    REQUIRE(target.has_value());
    shop.vacuum.target = given(*target);
  }
  return shop;
}

bool vacuum_passes(const Shop& shop) {
  Diagnostics said;
  const bool good = judge_vacuum(shop, said);
  CHECK(good == said.all().empty());
  return good;
}

}  // namespace

TEST_CASE("a gauge reading that this altitude does not have is refused, and the hint's is not") {
  Shop shop;
  shop.altitude = given(1609.344 * metre);
  shop.pump.ultimate = given(absolute(0.1 * kilopascal));
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::inches}) {
    shop.units = given(units);
    shop.vacuum.target_reading = given(GaugePressure::above_zero(24.3 * inch_of_mercury));
    CHECK(vacuum_passes(shop));  // 24.64 inHg is all there is
    shop.vacuum.target_reading = given(GaugePressure::above_zero(24.7 * inch_of_mercury));
    Diagnostics said;
    CHECK_FALSE(judge_vacuum(shop, said));
    const Diagnostic& d = about(said, Problem::gauge_beyond_atmosphere);
    CHECK(d.severity == Severity::error);
    if (units == UnitSystem::inches) {
      CHECK(d.message_text().find("24.70 inHg at 5280 ft") != std::string::npos);
      CHECK(d.message_text().find("24.64 inHg") != std::string::npos);
    }
    CHECK(vacuum_passes(pasted(shop, d)));
  }
}

TEST_CASE("a target at the air's pressure or above is no vacuum") {
  Shop shop;
  shop.altitude = given(4000 * metre);  // 616.6 hPa, US Standard Atmosphere 1976 (from memory)
  shop.vacuum.target = given(absolute(61 * kilopascal));
  CHECK(vacuum_passes(shop));
  shop.vacuum.target = given(absolute(62 * kilopascal));
  Diagnostics said;
  CHECK_FALSE(judge_vacuum(shop, said));
  const Diagnostic& d = about(said, Problem::gauge_beyond_atmosphere);
  CHECK(vacuum_passes(pasted(shop, d)));
  shop.vacuum.target_reading = given(GaugePressure::above_zero(0 * pascal));
  CHECK_FALSE(vacuum_passes(shop));
}

TEST_CASE("a pump that never gets to the target is refused, and gets to the hint's") {
  for (const double ultimate : {0.04, 1.0, 7.7, 60.0, 89.0}) {
    for (const UnitSystem units : {UnitSystem::metric, UnitSystem::inches}) {
      for (const bool by_gauge : {false, true}) {
        CAPTURE(ultimate);
        CAPTURE(by_gauge);
        Shop shop;
        shop.units = given(units);
        shop.pump.ultimate = given(absolute(ultimate * kilopascal));
        const auto aim = [&](double target) {
          shop.vacuum.target = given(absolute(target * kilopascal));
          if (by_gauge) {
            shop.vacuum.target_reading = given(GaugePressure::above_zero((101.325 - target) * kilopascal));
          }
        };
        aim(ultimate * 1.01);
        CHECK(vacuum_passes(shop));
        aim(ultimate * 0.99);
        Diagnostics said;
        CHECK_FALSE(judge_vacuum(shop, said));
        const Diagnostic& d = about(said, Problem::pump_too_weak);
        CHECK(d.severity == Severity::error);
        const Shop mended = pasted(shop, d);
        CHECK(vacuum_passes(mended));
        const VacuumInput in{.altitude = mended.altitude,
                             .facts = mended.vacuum,
                             .pump = mended.pump,
                             .gas = 10 * litre,
                             .resin_head = 100 * mm,
                             .resin_density = given(1000 * kilogram_per_m3)};
        CHECK(vacuum(in).value.pump_down > 0 * second);
      }
    }
  }
}

TEST_CASE("water that boils in the room's warmth is told of, and no more than that") {
  // Free water of 20 °C boils under 2.3392 kPa (IAPWS-IF97; CRC Handbook 2.3388): 29.23 inHg at sea level.
  VacuumCase c;
  Shop shop;
  const auto said_at = [&](Stress target) {
    c.facts.target = given(absolute(target));
    Diagnostics said;
    judge_boiling(c.worked(), shop, said);
    return said;
  };
  CHECK(said_at(2.35 * kilopascal).all().empty());
  const Diagnostics boils = said_at(2.33 * kilopascal);
  const Diagnostic& d = about(boils, Problem::resin_or_water_boils);
  CHECK(d.severity == Severity::note);
  CHECK_FALSE(boils.has_errors());
  c.pump.ultimate = given(absolute(10 * pascal));
  CHECK(said_at(100 * pascal).all().size() == 1);
  c.reading(29.22 * inch_of_mercury);
  CHECK(said_at(5 * kilopascal).all().empty());
  c.reading(29.24 * inch_of_mercury);
  CHECK(said_at(5 * kilopascal).all().size() == 1);
}
