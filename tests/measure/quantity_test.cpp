#include "measure/quantity.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string_view>
#include <type_traits>

#include "measure/quantity_text.h"

using namespace blankwright;

namespace {

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Subtractable = requires(A a, B b) {
  a - b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
  a < b;
};
template <class A, class B>
concept Multipliable = requires(A a, B b) {
  a* b;
};
template <class A, class B>
concept Divisible = requires(A a, B b) {
  a / b;
};

// What must not compile: quantities of different dimension, and bare numbers.
static_assert(!Addable<Length, Area> && !Addable<Length, double> && !Addable<double, Length>);
static_assert(!Subtractable<Length, Volume> && !Subtractable<Length, double>);
static_assert(!Comparable<Length, double> && !Comparable<Length, Area> && !Comparable<Mass, Force>);
static_assert(!Addable<Mass, Force> && !Addable<Force, Torque> && !Addable<Stress, Force>);
static_assert(!std::is_constructible_v<Length, double> && !std::is_convertible_v<Length, double>);
static_assert(!std::is_constructible_v<Length, Area> && !std::is_assignable_v<Length&, double>);

// Points on a scale: they cannot be added, stretched or mixed with another scale's.
static_assert(!Addable<Temperature, Temperature> && !Multipliable<double, Temperature>);
static_assert(!Addable<Temperature, double> && !Comparable<Temperature, TemperatureChange>);
static_assert(!Addable<AbsolutePressure, AbsolutePressure> && !Addable<GaugePressure, GaugePressure>);
static_assert(!Addable<GaugePressure, AbsolutePressure> && !Subtractable<GaugePressure, AbsolutePressure>);
static_assert(!Comparable<GaugePressure, AbsolutePressure> &&
              !std::is_convertible_v<GaugePressure, AbsolutePressure>);
static_assert(!Comparable<AbsolutePressure, Stress> && !std::is_constructible_v<AbsolutePressure, double>);
static_assert(!std::is_constructible_v<AbsolutePressure, Stress>);

// Numbers without a dimension that mean different things.
static_assert(!Addable<Angle, double> && !Addable<Share, double> && !Addable<Angle, Share>);
static_assert(!Comparable<Angle, double> && !Comparable<Share, double> && !Comparable<Angle, Share>);
static_assert(!Multipliable<Share, Share> && !Multipliable<Length, Share> && !Divisible<Angle, Share>);
static_assert(!std::is_constructible_v<Share, double> && !std::is_convertible_v<Share, double>);

// What must, and as what.
static_assert(std::is_same_v<decltype(mm + inch), Length>);
static_assert(std::is_same_v<decltype(mm * mm), Area> && std::is_same_v<decltype(mm2 * mm), Volume>);
static_assert(std::is_same_v<decltype(cm3 / mm2), Length> && std::is_same_v<decltype(mm / inch), double>);
static_assert(std::is_same_v<decltype(gram / cm3), Density> && std::is_same_v<decltype(newton / mm2), Stress>);
static_assert(std::is_same_v<decltype(newton * metre), Torque> && std::is_same_v<decltype(mm / second), Speed>);
static_assert(std::is_same_v<decltype(6000 * inch / minute / inch), RotationalSpeed>);
static_assert(std::is_same_v<decltype(per_minute * minute), double>);
static_assert(std::is_same_v<decltype(celsius(93) - celsius(20)), TemperatureChange>);
static_assert(std::is_same_v<decltype(celsius(93) + 5 * kelvin), Temperature>);
static_assert(std::is_same_v<decltype(AbsolutePressure{} - AbsolutePressure{}), Stress>);
static_assert(std::is_same_v<decltype(0.5 * degree), Angle> && std::is_same_v<decltype(percent / whole), double>);

/// Half of the last digit that the source prints.
bool agrees(double ours, double printed, double last_digit) { return std::abs(ours - printed) <= last_digit / 2; }

}  // namespace

TEST_CASE("units are worth what NIST SP 811 says") {
  // NIST SP 811 (2008), appendix B.8 "Factors for units listed alphabetically". Factors printed there in bold are
  // exact: a last digit of 0 says so, and leaves room only for the rounding of doubles.
  struct Row {
    std::string_view unit;
    double ours, printed, last_digit;
  };
  const Row published[] = {
      {"inch, m", inch / metre, 2.54e-2, 0},
      {"foot, m", foot / metre, 3.048e-1, 0},
      {"square inch, m2", inch2 / Area::unit(), 6.4516e-4, 0},
      {"gallon (US), m3", gallon / Volume::unit(), 3.785412e-3, 1e-9},
      {"fluid ounce (US), m3", fluid_ounce / Volume::unit(), 2.957353e-5, 1e-11},
      {"liter, m3", litre / Volume::unit(), 1e-3, 0},
      {"ounce (avoirdupois), kg", ounce / kilogram, 2.834952e-2, 1e-8},
      {"pound (avoirdupois), kg", pound / kilogram, 4.535924e-1, 1e-7},
      {"pound-force, N", pound_force / newton, 4.448222, 1e-6},
      {"psi, Pa", psi / pascal, 6.894757e3, 1e-3},
      {"inch of mercury, conventional, Pa", inch_of_mercury / pascal, 3.386389e3, 1e-3},
      {"pound-force foot, N m", pound_force * foot / newton_metre, 1.355818, 1e-6},
      {"pound per cubic foot, kg/m3", pound / (foot * foot * foot) / kilogram_per_m3, 1.601846e1, 1e-5},
      {"degree, rad", degree / radian, 1.745329e-2, 1e-8},
      {"degree Fahrenheit, K", fahrenheit_degree / kelvin, 1 / 1.8, 0},
      {"hour, s", hour / second, 3600, 0},
  };
  for (const Row& row : published) {
    CAPTURE(row.unit);
    CAPTURE(row.ours);
    if (row.last_digit > 0) {
      CHECK(agrees(row.ours, row.printed, row.last_digit));
    } else {
      CHECK(row.ours == doctest::Approx(row.printed).epsilon(1e-15));
    }
  }
}

TEST_CASE("the exact definitions behind the units hold to the last digit of a double") {
  // NIST SP 811 (2008), appendix B, footnotes: the US gallon is 231 cubic inches, 128 fluid ounces make a gallon,
  // the avoirdupois pound is 0.45359237 kg and has 16 ounces, standard gravity is 9.80665 m/s².
  CHECK(gallon / (inch * inch * inch) == doctest::Approx(231).epsilon(1e-15));
  CHECK(gallon / fluid_ounce == 128);
  CHECK(pound / kilogram == 0.45359237);
  CHECK(pound / ounce == 16);
  CHECK(pound_force / newton == doctest::Approx(0.45359237 * 9.80665).epsilon(1e-15));
  CHECK(foot / inch == doctest::Approx(12).epsilon(1e-15));
}

TEST_CASE("pressures as gauges show them are worth the published pascals") {
  // NIST SP 811 (2008), appendix B.8: conventional inch and millimetre of mercury, psi; 29.92 inHg is the altimeter
  // setting of the standard atmosphere, 1013.21 hPa by the conventional inch.
  const auto pascals = [](std::string_view text) { return read_si(text, Kind::stress).value(); };
  CHECK(agrees(pascals("1 inHg"), 3386.389, 0.001));
  CHECK(agrees(pascals("1 mmHg"), 133.3224, 0.0001));
  CHECK(agrees(pascals("1 psi"), 6894.757, 0.001));
  CHECK(agrees(pascals("29.92 inHg") / 100, 1013.21, 0.01));
  CHECK(pascals("1 bar") == doctest::Approx(1e5).epsilon(1e-15));
  CHECK(pascals("1 mbar") == doctest::Approx(100).epsilon(1e-15));
}

TEST_CASE("degrees Celsius and Fahrenheit meet at their fixed points") {
  // Exact by definition: NIST SP 811 (2008), appendix B.8: t/°C = (t/°F − 32)/1.8, T/K = t/°C + 273.15.
  struct Row {
    double fahrenheit, celsius;
  };
  const Row exact[] = {{32, 0}, {212, 100}, {-40, -40}, {200, 93.3333}, {190.4, 88}, {98.6, 37}, {-459.67, -273.15}};
  for (const Row& row : exact) {
    CAPTURE(row.fahrenheit);
    const TemperatureChange apart = fahrenheit(row.fahrenheit) - celsius(row.celsius);
    CHECK(abs(apart) <= 0.00005 * kelvin);  // half of the last digit of 93.3333
  }
  CHECK((celsius(0) - Temperature{}) / kelvin == doctest::Approx(273.15).epsilon(1e-15));
  CHECK(2.2 * kelvin / fahrenheit_degree == doctest::Approx(3.96).epsilon(1e-14));  // an interval, not a point
}

TEST_CASE("a gauge reads the difference from the air around it") {
  // By definition of gauge pressure (ISO 80000-4): p_e = p − p_amb.
  const AbsolutePressure atmosphere = AbsolutePressure::above_zero(101.325 * kilopascal);
  const AbsolutePressure inside = AbsolutePressure::above_zero(3.325 * kilopascal);
  const GaugePressure reading = gauge_of(inside, atmosphere);
  CHECK((reading - GaugePressure{}) / kilopascal == doctest::Approx(-98));
  CHECK((absolute_of(reading, atmosphere) - inside) / pascal == doctest::Approx(0).scale(1));
}

TEST_CASE("a thing fits exactly its own room, and not one that is thinner by what a feeler shows") {
  CHECK(fits(25 * mm, 25 * mm));
  CHECK(fits(1 * inch, 25.4 * mm));
  CHECK(fits((0.1 + 0.2) * mm, 0.3 * mm));
  CHECK(fits(0.3 * mm, (0.1 + 0.2) * mm));
  CHECK_FALSE(fits(24.99 * mm, 25 * mm));
  CHECK_FALSE(fits(25 * mm, 25.001 * mm));
}
