#include "plan/tables/air.h"

#include <doctest/doctest.h>

#include <cmath>

#include "diagnose/failure.h"
#include "pressures.h"

using namespace blankwright;

namespace {

double kelvins(Temperature t) { return (t - Temperature{}) / kelvin; }
Temperature at_kelvin(double t) { return Temperature::above_zero(t * kelvin); }

}  // namespace

TEST_CASE("the air's pressure by altitude is the standard atmosphere's") {
  // US Standard Atmosphere 1976, table I, by geometric altitude, hPa (from memory); in 1000 ft and psi as tabled by
  // public engineering handbooks.
  struct Row {
    Length altitude;
    double pressure;
    Stress unit;
    double tolerance;
  };
  const Stress hectopascal = 100 * pascal;
  for (const Row& row : {Row{0 * metre, 1013.25, hectopascal, 0.005}, Row{500 * metre, 954.61, hectopascal, 0.02},
                         Row{1000 * metre, 898.76, hectopascal, 0.02}, Row{1500 * metre, 845.60, hectopascal, 0.02},
                         Row{2000 * metre, 795.01, hectopascal, 0.02}, Row{2500 * metre, 746.92, hectopascal, 0.02},
                         Row{3000 * metre, 701.21, hectopascal, 0.02}, Row{1000 * foot, 14.175, psi, 0.003},
                         Row{5000 * foot, 12.228, psi, 0.003}, Row{10000 * foot, 10.108, psi, 0.003}}) {
    CAPTURE(row.altitude / metre);
    const double p = (standard_atmosphere(row.altitude) - AbsolutePressure{}) / row.unit;
    CHECK(std::abs(p - row.pressure) <= row.tolerance);
  }
  CHECK_THROWS_AS(standard_atmosphere(12000 * metre), BrokenPromise);
}

TEST_CASE("altitude counts as geopotential") {
  // At 3000 m the geopotential altitude is 2998.6 m (US Standard Atmosphere 1976, table I): 17 Pa of 70121, more than
  // the table's last digit.
  const double without = 101325 * std::pow(1 - 0.0065 * 3000 / 288.15, 5.25588);
  CHECK(pascals(standard_atmosphere(3000 * metre)) - without > 10);
  CHECK(pascals(standard_atmosphere(3000 * metre)) - without < 20);
}

TEST_CASE("saturated water vapour has the published pressure") {
  // IAPWS-IF97, R7-97(2012), table 35.
  CHECK(pascals(saturated_vapour(at_kelvin(300))) == doctest::Approx(0.353658941e4).epsilon(2e-9));
  CHECK(pascals(saturated_vapour(at_kelvin(500))) == doctest::Approx(0.263889776e7).epsilon(2e-9));
  CHECK(pascals(saturated_vapour(at_kelvin(600))) == doctest::Approx(0.123443146e8).epsilon(2e-9));
  // CRC Handbook of Chemistry and Physics, 73rd ed., vapour pressure of water, kPa; within 0.1 % of IF97.
  struct Row {
    double celsius, kilopascals;
  };
  for (const Row& row : {Row{10, 1.2281}, Row{15, 1.7056}, Row{20, 2.3388}, Row{25, 3.1690}, Row{30, 4.2455},
                         Row{35, 5.6267}, Row{40, 7.3814}, Row{50, 12.344}, Row{60, 19.932}}) {
    CAPTURE(row.celsius);
    CHECK(pascals(saturated_vapour(celsius(row.celsius))) == doctest::Approx(row.kilopascals * 1000).epsilon(0.001));
  }
  CHECK_THROWS_AS(saturated_vapour(celsius(-0.1)), BrokenPromise);
  CHECK_THROWS_AS(saturated_vapour(celsius(374)), BrokenPromise);
}

TEST_CASE("water boils where IAPWS says") {
  // IAPWS-IF97, R7-97(2012), table 36.
  CHECK(kelvins(*boiling_of_water(absolute(0.1 * megapascal))) == doctest::Approx(0.372755919e3).epsilon(2e-9));
  CHECK(kelvins(*boiling_of_water(absolute(1 * megapascal))) == doctest::Approx(0.453035632e3).epsilon(2e-9));
  CHECK(kelvins(*boiling_of_water(absolute(10 * megapascal))) == doctest::Approx(0.584149488e3).epsilon(2e-9));
  // Under a vacuum gauge at sea level, 101325 Pa less 25, 28, 29, 29.5 inHg; computed elsewhere by IF97.
  CHECK(kelvins(*boiling_of_water(absolute(16665 * pascal))) - 273.15 == doctest::Approx(56.17).epsilon(0.0004));
  CHECK(kelvins(*boiling_of_water(absolute(6506 * pascal))) - 273.15 == doctest::Approx(37.65).epsilon(0.0006));
  // The triple point, 611.657 Pa at 0.01 °C (IAPWS): below 0 °C there is only ice.
  CHECK(std::abs(kelvins(*boiling_of_water(absolute(611.657 * pascal))) - 273.16) < 0.001);
  CHECK_FALSE(boiling_of_water(absolute(611 * pascal)).has_value());
  CHECK_FALSE(boiling_of_water(absolute(10 * pascal)).has_value());
  CHECK_THROWS_AS(boiling_of_water(absolute(23 * megapascal)), BrokenPromise);
}

TEST_CASE("boiling point and vapour pressure are each other's inverse") {
  for (double t = 0.5; t < 370; t += 3.7) {
    CAPTURE(t);
    CHECK(kelvins(*boiling_of_water(saturated_vapour(celsius(t)))) - 273.15 == doctest::Approx(t).epsilon(1e-7));
  }
}

TEST_CASE("the Magnus formula does in a room but not in an oven") {
  // Alduchov and Eskridge 1996: 0.61094 kPa exp(17.625 T/(T + 243.04)), meant for the weather.
  const auto magnus = [](double t) { return 610.94 * std::exp(17.625 * t / (t + 243.04)); };
  for (const double t : {10.0, 20.0, 30.0, 40.0}) {
    CAPTURE(t);
    CHECK(std::abs(pascals(saturated_vapour(celsius(t))) / magnus(t) - 1) < 0.0025);
  }
  // 200 °F: 11.53 psi in the steam tables of Keenan and Keyes (from memory, 11.526; later editions 11.538).
  const double oven = pascals(saturated_vapour(fahrenheit(200)));
  CHECK(oven == doctest::Approx(11.53 * (psi / pascal)).epsilon(0.001));
  CHECK(magnus((fahrenheit(200) - ice_point) / kelvin) / oven > 1.015);
  // Air of 21 °C and 50 % warmed to 200 °F: 1.56 % of saturation.
  CHECK(std::abs(50 * pascals(saturated_vapour(celsius(21))) / oven - 1.56) <= 0.02);
}
