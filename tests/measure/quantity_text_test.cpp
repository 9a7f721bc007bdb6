#include "measure/quantity_text.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <clocale>
#include <cmath>
#include <locale>
#include <random>
#include <string>
#include <string_view>

using namespace blankwright;

namespace {

constexpr Kind every_kind[] = {Kind::length,
                               Kind::volume,
                               Kind::mass,
                               Kind::duration,
                               Kind::force,
                               Kind::torque,
                               Kind::stress,
                               Kind::density,
                               Kind::angle,
                               Kind::share,
                               Kind::rotational_speed,
                               Kind::temperature,
                               Kind::temperature_change,
                               Kind::absolute_pressure,
                               Kind::gauge_pressure};

double read(std::string_view text, Kind kind) {
  CAPTURE(text);
  const auto value = read_si(text, kind);
  if (!value) FAIL_CHECK(text, ": ", value.error().message);
  return value.value_or(std::nan(""));
}

QuantityFault fault(std::string_view text, Kind kind) {
  const auto value = read_si(text, kind);
  CAPTURE(text);
  REQUIRE_FALSE(value.has_value());
  return value.error();
}

double millimetres(std::string_view text) { return read(text, Kind::length) * 1000; }

const Printing sawn_inches{UnitSystem::inches, Round::nearest, Fineness::sawn};

}  // namespace

TEST_CASE("a length is read as people write it") {
  // Hand calculation with the inch of exactly 25.4 mm and the foot of 12 inches (NIST SP 811, 2008, appendix B).
  struct Row {
    std::string_view text;
    double mm;
  };
  const Row rows[] = {
      {"45 mm", 45},
      {"45mm", 45},
      {" 45  mm ", 45},
      {"45 MM", 45},
      {"4.5 cm", 45},
      {"0.045 m", 45},
      {".5 mm", 0.5},
      {"5. mm", 5},
      {"250 µm", 0.25},
      {"250 \u03BCm", 0.25},
      {"1-3/4 in", 44.45},
      {"1 3/4 in", 44.45},
      {"1 3/4\"", 44.45},
      {"1-3/4in", 44.45},
      {"1¾ in", 44.45},
      {"1 ¾″", 44.45},
      {"1-¾″", 44.45},
      {"3/4 in", 19.05},
      {"3\u20444 in", 19.05},
      {"¾ inch", 19.05},
      {"7/4 inches", 44.45},
      {"-1/2 in", -12.7},
      {"\u22121/2 in", -12.7},
      {"-1-1/2 in", -38.1},
      {"1 ft 3 in", 381},
      {"1 ft 3-1/2 in", 393.7},
      {"1' 3\"", 381},
      {"1'3\"", 381},
      {"1′3½″", 393.7},
      {"-1 ft 3 in", -381},
      {"0 mm", 0},
      {"5/64 in", 1.984375},
      {"1\u00A03/4\u00A0in", 44.45},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text);
    CHECK(millimetres(row.text) == doctest::Approx(row.mm).epsilon(1e-14));
  }
}

TEST_CASE("every kind of quantity is read in the units of bench and data sheet") {
  // Hand calculation with the exact factors of NIST SP 811 (2008), appendix B.
  struct Row {
    std::string_view text;
    Kind kind;
    double si;
  };
  const Row rows[] = {
      {"2 h 30 min", Kind::duration, 9000},
      {"1 d 2 h", Kind::duration, 93600},
      {"1 min 30 s", Kind::duration, 90},
      {"45 min", Kind::duration, 2700},
      {"93 °C", Kind::temperature, 366.15},
      {"93°C", Kind::temperature, 366.15},
      {"93 degC", Kind::temperature, 366.15},
      {"-40 degF", Kind::temperature, 233.15},
      {"200 degF", Kind::temperature, 273.15 + 168 / 1.8},
      {"212 °F", Kind::temperature, 373.15},
      {"5 K", Kind::temperature_change, 5},
      {"9 °F", Kind::temperature_change, 5},
      {"28 inHg", Kind::gauge_pressure, 28 * 3386.389},
      {"-28 inHg", Kind::gauge_pressure, -28 * 3386.389},
      {"3 kPa", Kind::absolute_pressure, 3000},
      {"30 mbar", Kind::absolute_pressure, 3000},
      {"1 gal", Kind::volume, 231 * 0.0254 * 0.0254 * 0.0254},
      {"4 qt", Kind::volume, 231 * 0.0254 * 0.0254 * 0.0254},
      {"128 fl oz", Kind::volume, 231 * 0.0254 * 0.0254 * 0.0254},
      {"750 ml", Kind::volume, 0.00075},
      {"1.5 l", Kind::volume, 0.0015},
      {"2.6 oz", Kind::mass, 2.6 * 0.45359237 / 16},
      {"1 lb 4 oz", Kind::mass, 1.25 * 0.45359237},
      {"70 g", Kind::mass, 0.07},
      {"0.5 kN", Kind::force, 500},
      {"120 lbf", Kind::force, 120 * 0.45359237 * 9.80665},
      {"3 N m", Kind::torque, 3},
      {"3 Nm", Kind::torque, 3},
      {"10 lbf in", Kind::torque, 10 * 0.45359237 * 9.80665 * 0.0254},
      {"4 MPa", Kind::stress, 4e6},
      {"4 N/mm2", Kind::stress, 4e6},
      {"1.05 g/cm3", Kind::density, 1050},
      {"8 %", Kind::share, 0.08},
      {"8%", Kind::share, 0.08},
      {"90 deg", Kind::angle, 1.5707963267948966},
      {"118°", Kind::angle, 118 * 3.141592653589793 / 180},
      {"1200 rpm", Kind::rotational_speed, 20},
      {"1200 1/min", Kind::rotational_speed, 20},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text);
    CHECK(read(row.text, row.kind) == doctest::Approx(row.si).epsilon(1e-14));
  }
}

TEST_CASE("what is no quantity is refused with its cause") {
  using Cause = QuantityFault::Cause;
  struct Row {
    std::string text;
    Kind kind;
    Cause cause;
  };
  const Row rows[] = {
      {"45", Kind::length, Cause::bare_number},
      {"1-3/4", Kind::length, Cause::bare_number},
      {"2", Kind::duration, Cause::bare_number},
      {"45 mn", Kind::length, Cause::unknown_unit},
      {"45 px", Kind::length, Cause::unknown_unit},
      {"2h30min", Kind::duration, Cause::unknown_unit},
      {"45 M", Kind::length, Cause::unknown_unit},
      {"45 g", Kind::length, Cause::other_kind},
      {"45 mm", Kind::mass, Cause::other_kind},
      {"5 oz", Kind::volume, Cause::other_kind},
      {"1 lb", Kind::force, Cause::other_kind},
      {"5 K", Kind::length, Cause::other_kind},
      {"1,5 mm", Kind::length, Cause::not_a_quantity},
      {"1,250 mm", Kind::length, Cause::not_a_quantity},
      {"1,250.5 mm", Kind::length, Cause::not_a_quantity},
      {"1e5 mm", Kind::length, Cause::not_a_quantity},
      {"1E-3 m", Kind::length, Cause::not_a_quantity},
      {"1e+3 mm", Kind::length, Cause::not_a_quantity},
      {"nan mm", Kind::length, Cause::not_a_quantity},
      {"inf mm", Kind::length, Cause::not_a_quantity},
      {"-inf mm", Kind::length, Cause::not_a_quantity},
      {"0x10 mm", Kind::length, Cause::unknown_unit},
      {"", Kind::length, Cause::not_a_quantity},
      {"   ", Kind::length, Cause::not_a_quantity},
      {"mm", Kind::length, Cause::not_a_quantity},
      {"+5 mm", Kind::length, Cause::not_a_quantity},
      {"--5 mm", Kind::length, Cause::not_a_quantity},
      {"- 5 mm", Kind::length, Cause::not_a_quantity},
      {"1/0 in", Kind::length, Cause::fraction_by_zero},
      {"1-3/0 in", Kind::length, Cause::fraction_by_zero},
      {"1.5 3/4 in", Kind::length, Cause::not_a_quantity},
      {"1.2.3 mm", Kind::length, Cause::not_a_quantity},
      {"1/2/3 in", Kind::length, Cause::not_a_quantity},
      {"1/2 1/2 in", Kind::length, Cause::not_a_quantity},
      {"5 5 mm", Kind::length, Cause::not_a_quantity},
      {"45 mm 3", Kind::length, Cause::not_a_quantity},
      {"45 mm x", Kind::length, Cause::unknown_unit},
      {"45 mm; drop", Kind::length, Cause::unknown_unit},
      {"3 in 1 ft", Kind::length, Cause::not_a_quantity},
      {"1 ft -3 in", Kind::length, Cause::unknown_unit},
      {"1 in 2 in", Kind::length, Cause::not_a_quantity},
      {"20 °C 5 °C", Kind::temperature, Cause::not_a_quantity},
      {"1" + std::string(30, '0') + " mm", Kind::length, Cause::out_of_range},
      {"1" + std::string(400, '0') + " mm", Kind::length, Cause::not_a_quantity},
      {"45\nmm", Kind::length, Cause::unknown_unit},
      {std::string("45 mm\0", 6), Kind::length, Cause::unknown_unit},
      {std::string(1'000'000, '-') + "5 mm", Kind::length, Cause::not_a_quantity},
      {std::string(1'000'000, '7'), Kind::length, Cause::not_a_quantity},
      {"5 " + std::string(1'000'000, 'm'), Kind::length, Cause::unknown_unit},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text.substr(0, 40));
    CHECK(static_cast<int>(fault(row.text, row.kind).cause) == static_cast<int>(row.cause));
  }
}

TEST_CASE("what is proposed for a mistake can be pasted and works") {
  for (const Kind kind : every_kind) {
    for (const std::string text :
         {"45", "4.5", "1/2", "1-3/4", "¾", "1,5 mm", "5 oops", "5 mn", "x", "5 kg", "2 1 mm", ""}) {
      const auto value = read_si(text, kind);
      if (value || value.error().hint.empty()) continue;
      CAPTURE(text);
      CAPTURE(value.error().hint);
      CAPTURE(kind_name(kind));
      CHECK(read_si(value.error().hint, kind).has_value());
    }
    CHECK_FALSE(fault("45", kind).hint.empty());  // a bare number is always answered with how to write it
    CHECK(read_si(example(kind), kind).has_value());
  }
  CHECK(fault("45", Kind::length).hint == "45 mm");
  CHECK(fault("1-3/4", Kind::length).hint == "1-3/4 in");
  CHECK(fault("90", Kind::duration).hint == "90 min");
  CHECK(fault("1,5 mm", Kind::length).hint == "1.5 mm");
  CHECK(fault("1,250 mm", Kind::length).hint.empty());  // thousands or thousandths: nobody knows
  CHECK(fault("80 inchs", Kind::length).hint == "80 inch");
  CHECK(fault("1.5''", Kind::length).hint == "1.5 in");  // not 1.5 ft
  CHECK(fault("45 mn", Kind::length).hint == "45 mm");
  CHECK(fault("2h30min", Kind::duration).hint == "2 h 30 min");
  CHECK(fault("1 ft -3 in", Kind::length).hint == "45 mm");  // not "1 ft", which would drop something
  CHECK(fault("45", Kind::angle).message == "bare number where an angle belongs");
}

TEST_CASE("an inch is printed as the fraction on the rule with its decimal where they are one number, else decimal") {
  // Decimal equivalents of fractions of an inch: every machinist's chart, and plain division.
  struct Row {
    Length length;
    Round round;
    std::string_view printed;
  };
  const Row rows[] = {
      {1.765625 * inch, Round::nearest, "1-49/64 in (1.766)"},
      {0.5 * inch, Round::nearest, "1/2 in (0.500)"},
      {2 * inch, Round::nearest, "2 in (2.000)"},
      {0 * inch, Round::nearest, "0 in (0.000)"},
      {1.765625 * inch, Round::down, "1-49/64 in (1.765)"},
      {1.765625 * inch, Round::up, "1-49/64 in (1.766)"},
      {1.7658 * inch, Round::up, "1.766 in"},  // 49/64 is less
      {0.0078 * inch, Round::nearest, "0.008 in"},
      {1.77 * inch, Round::nearest, "1.770 in"},  // 1-25/32 is 1.781
      {0.0197 * inch, Round::down, "0.019 in"},   // 1/64 is 0.016
      {0.9999 * inch, Round::nearest, "1 in (1.000)"},
      {0.9999 * inch, Round::down, "0.999 in"},
      {1.0001 * inch, Round::up, "1.001 in"},
      {-0.5 * inch, Round::nearest, "-1/2 in (-0.500)"},
      {-1.25 * inch, Round::down, "-1-1/4 in (-1.250)"},
      {12.7 * mm, Round::up, "1/2 in (0.500)"},
      {12.700000000001 * mm, Round::up, "1/2 in (0.500)"},
      {12.699999999999 * mm, Round::down, "1/2 in (0.500)"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.printed);
    Printing how = sawn_inches;
    how.round = row.round;
    CHECK(text(row.length, how) == row.printed);
  }
}

TEST_CASE("a fraction beside a decimal is the same number, and neither errs to the wrong side") {
  std::mt19937_64 random{20270504};
  std::uniform_int_distribution<int> parts{0, 20'000};
  int fractions = 0;
  for (int i = 0; i < 20'000; ++i) {
    const Length length = parts(random) / 10'000.0 * inch + (i % 2) * 1e-5 * inch;
    for (const Round round : {Round::nearest, Round::down, Round::up}) {
      const std::string printed = text(length, {UnitSystem::inches, round, Fineness::sawn});
      CAPTURE(printed);
      CAPTURE(length / inch);
      const auto beside = printed.find(" (");
      const double first = millimetres(printed.substr(0, beside)) / 25.4;
      CHECK((round != Round::down || first <= length / inch + 1e-8));
      CHECK((round != Round::up || first >= length / inch - 1e-8));
      CHECK(std::abs(first - length / inch) < 0.001001);
      if (beside == std::string::npos) continue;
      CHECK(std::abs(std::stod(printed.substr(beside + 2)) - first) < 0.001);
      ++fractions;
    }
  }
  CHECK(fractions > 1000);
}

TEST_CASE("a rule's number stands alone where the head names its unit") {
  CHECK(rule_number(1.5 * inch, sawn_inches).digits == "1-1/2");
  CHECK(rule_number(1.77 * inch, sawn_inches).digits == "1.770");
  // 4-15/16 is 4.9375: what arithmetic leaves of it is no other number, nor is the decimal beside it.
  for (const double noise : {0.0, 1e-10, -1e-10}) {
    CHECK(rule_number((4.9375 + noise) * inch, sawn_inches).digits == "4-15/16");
    CHECK(number((4.9375 + noise) * inch, sawn_inches).digits == "4.938");
  }
  CHECK(rule_number(45 * mm, {UnitSystem::metric, Round::nearest, Fineness::sawn}).digits == "45.0");
}

TEST_CASE("a column of masses has one unit, however heavy its last row") {
  // A pound has 16 ounces, an ounce 28.349523125 g (NIST SP 811 B.8).
  CHECK(number(18 * ounce, UnitSystem::inches).digits == "18.00");
  CHECK(number(36.634 * ounce, UnitSystem::inches, Round::up).digits == "36.64");
  CHECK(number(4000 * gram, UnitSystem::inches, Round::down).digits == "141.09");  // 141.0958
  CHECK(column_unit<Mass>(UnitSystem::inches) == PrintedUnit::oz);
  CHECK(number(4000 * gram, UnitSystem::metric).digits == "4000.0");
  CHECK(column_unit<Mass>(UnitSystem::metric) == PrintedUnit::g);
}

TEST_CASE("a window that rounding would empty is printed with a digit more") {
  const auto between = [](double least, double most, Fineness fineness) {
    const Window w = window(least * mm, most * mm, UnitSystem::metric, fineness);
    return w.least.digits + " to " + w.most.digits;
  };
  CHECK(between(29.5, 30.5, Fineness::sawn) == "29.5 to 30.5");
  CHECK(between(29.44, 30.56, Fineness::sawn) == "29.5 to 30.5");
  CHECK(between(29.94, 30.06, Fineness::sawn) == "29.94 to 30.06");          // 30.0 to 30.0
  CHECK(between(30.002, 30.008, Fineness::measured) == "30.002 to 30.008");  // 30.01 to 30.00
  CHECK(between(30.05, 30.05, Fineness::sawn) == "30.05 to 30.05");          // one size
  CHECK(between(30, 30, Fineness::sawn) == "30.0 to 30.0");
  const Window inches = window(0.1002 * inch, 0.1008 * inch, UnitSystem::inches, Fineness::measured);
  CHECK(inches.least.digits + " to " + inches.most.digits == "0.1002 to 0.1008");
  const Window masses = window(18.37 * gram, 18.375 * gram, UnitSystem::metric);
  CHECK(masses.least.digits + " to " + masses.most.digits == "18.37 to 18.37");
}

TEST_CASE("millimetres are printed as finely as they can be set or measured, to the safe side") {
  const auto printed = [](Length length, Round round, Fineness fineness) {
    return text(length, {UnitSystem::metric, round, fineness});
  };
  CHECK(printed(45 * mm, Round::nearest, Fineness::sawn) == "45.0 mm");
  CHECK(printed(45.04 * mm, Round::nearest, Fineness::sawn) == "45.0 mm");
  CHECK(printed(45.06 * mm, Round::nearest, Fineness::sawn) == "45.1 mm");
  CHECK(printed(45.01 * mm, Round::up, Fineness::sawn) == "45.1 mm");
  CHECK(printed(45.09 * mm, Round::down, Fineness::sawn) == "45.0 mm");
  CHECK(printed(0.346 * mm, Round::nearest, Fineness::measured) == "0.35 mm");
  CHECK(printed(0.344 * mm, Round::nearest, Fineness::measured) == "0.34 mm");
  CHECK(printed(0.341 * mm, Round::up, Fineness::measured) == "0.35 mm");
  CHECK(printed(0.349 * mm, Round::down, Fineness::measured) == "0.34 mm");
  CHECK(printed(-0.001 * mm, Round::nearest, Fineness::measured) == "0.00 mm");
  CHECK(printed(3 * (0.1 * mm), Round::up, Fineness::sawn) == "0.3 mm");  // 0.30000000000000004 stays 0.3
  CHECK(text(0.3556 * mm, {UnitSystem::inches, Round::nearest, Fineness::measured}) == "0.014 in");
}

TEST_CASE("a length printed as a fraction and read back is off by half a step at most") {
  std::mt19937_64 random{20270129};
  std::uniform_real_distribution<double> inches{0, 40};
  const Length step = inch / 64;
  const Length slack = 1e-6 * step;
  for (int i = 0; i < 20'000; ++i) {
    const Length length = inches(random) * inch;
    CAPTURE(length / inch);
    const auto back = [&](Round round) {
      return read_quantity<Length>(vulgar_fraction(length, round) + " in").value();
    };
    CHECK(abs(back(Round::nearest) - length) <= step / 2 + slack);
    CHECK(back(Round::up) >= length - slack);
    CHECK(back(Round::up) < length + step);
    CHECK(back(Round::down) <= length + slack);
    CHECK(back(Round::down) > length - step);
  }
}

TEST_CASE("a printed length never errs to the wrong side, and reads back within its step") {
  std::mt19937_64 random{46};
  std::uniform_real_distribution<double> metres{0, 1};
  for (int i = 0; i < 20'000; ++i) {
    const Length length = metres(random) * metre;
    CAPTURE(length / mm);
    for (const Fineness fineness : {Fineness::sawn, Fineness::measured}) {
      const Length step = (fineness == Fineness::sawn ? 0.1 : 0.01) * mm;
      const auto back = [&](Round round) {
        return read_quantity<Length>(text(length, {UnitSystem::metric, round, fineness})).value();
      };
      CHECK(abs(back(Round::nearest) - length) <= step * 0.500001);
      CHECK(back(Round::up) >= length - 1e-6 * step);
      CHECK(back(Round::down) <= length + 1e-6 * step);
    }
    const auto thousandths = [&](Round round) {
      return read_quantity<Length>(text(length, {UnitSystem::inches, round, Fineness::measured})).value();
    };
    CHECK(thousandths(Round::up) >= length - 1e-9 * inch);
    CHECK(thousandths(Round::down) <= length + 1e-9 * inch);
  }
}

TEST_CASE("other quantities are printed in the units of the shop") {
  CHECK(text(36.6 * mm2, UnitSystem::metric) == "36.6 mm²");
  CHECK(text(0.0524 * inch2, UnitSystem::inches) == "0.0524 in²");
  CHECK(text(61.2 * cm3, UnitSystem::metric) == "61.2 cm³");
  CHECK(text(1800 * newton, UnitSystem::metric) == "1800 N");
  CHECK(text(404.4 * pound_force, UnitSystem::inches, Round::up) == "405 lbf");
  CHECK(text(404.6 * pound_force, UnitSystem::inches, Round::down) == "404 lbf");
  CHECK(text(4 * megapascal, UnitSystem::metric) == "4.0 MPa");
  CHECK(text(580 * psi, UnitSystem::inches) == "580 psi");
  // A pound is 0.45359237 kg and has 16 ounces (NIST SP 811 B.8): 4 kg are 8.818 lb.
  CHECK(text(31.994 * ounce, UnitSystem::inches) == "31.99 oz");
  CHECK(text(4000 * gram, UnitSystem::inches) == "8.82 lb");
  CHECK(text(4000 * gram, UnitSystem::inches, Round::down) == "8.81 lb");
  CHECK(text(3 * newton_metre, UnitSystem::metric) == "3.00 N m");
  CHECK(text(2.0391 * newton_metre, UnitSystem::metric, Round::down) == "2.03 N m");
  // 1 lbf in = 0.1129848 N m (NIST SP 811 B.8): 26.552.
  CHECK(text(3 * newton_metre, UnitSystem::inches) == "26.6 lbf in");
  CHECK(text(3 * newton_metre, UnitSystem::inches, Round::down) == "26.5 lbf in");
  CHECK(text(150 * minute) == "2 h 30 min");
  CHECK(text(45 * minute) == "45 min");
  CHECK(text(2 * hour) == "2 h");
  CHECK(text(118 * degree) == "118°");
  CHECK(text(0.35 * degree) == "0.35°");
  CHECK(text(8.2 * percent) == "8.2 %");
}

TEST_CASE("no locale moves a decimal point") {
  class CommaForPoint : public std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
  };
  const std::string before = std::setlocale(LC_ALL, nullptr);
  for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "nl_NL.UTF-8", "de_DE"}) {
    if (std::setlocale(LC_ALL, name) != nullptr) break;  // a machine without any of them checks the C++ locale alone
  }
  const std::locale old = std::locale::global(std::locale{std::locale{}, new CommaForPoint});
  const std::string printed = text(1234.5 * mm, {UnitSystem::metric, Round::nearest, Fineness::sawn});
  const std::string inches = text(1.765625 * inch, sawn_inches);
  const std::string angle = text(0.35 * degree);
  const auto read_back = read_si("1234.5 mm", Kind::length);
  const auto comma = read_si("1234,5 mm", Kind::length);
  std::locale::global(old);
  std::setlocale(LC_ALL, before.c_str());
  CHECK(printed == "1234.5 mm");
  CHECK(inches == "1-49/64 in (1.766)");
  CHECK(angle == "0.35°");
  CHECK(read_back.value_or(0) == doctest::Approx(1.2345).epsilon(1e-15));
  CHECK_FALSE(comma.has_value());
}
