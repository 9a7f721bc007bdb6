#include "measure/quantity_text.h"

#include <fmt/format.h>

#include <cmath>
#include <numeric>
#include <optional>

namespace blankwright {
namespace {

constexpr double slack = 1e-6;  // of a step: what arithmetic may have added to a value that is meant exactly

/// A number with so many decimals, rounded to the given side.
Number decimal(double value, int decimals, Round round) {
  return blankwright::decimal(rounded(value, std::pow(10.0, -decimals), round), decimals);
}

/// A 64th of an inch is one whatever arithmetic has added: else 4-15/16 may be 4.937 once, and 4.938 beside it.
double in_inches(Length length) {
  const double value = length / inch, nearest = std::round(value * 64) / 64;
  return std::abs(value - nearest) < 1e-9 ? nearest : value;
}
double in_unit(Length length, UnitSystem system) {
  return system == UnitSystem::metric ? length / mm : in_inches(length);
}
int decimals_of(UnitSystem system, Fineness fineness) {
  return system == UnitSystem::inches ? 3 : fineness == Fineness::sawn ? 1 : 2;
}

double in_unit(Mass mass, UnitSystem system) { return mass / (system == UnitSystem::metric ? gram : ounce); }
int mass_decimals(UnitSystem system) { return system == UnitSystem::metric ? 1 : 2; }

Window window(double least, double most, int decimals) {
  const double step = std::pow(10.0, -decimals);
  const double up = rounded(least, step, Round::up), down = rounded(most, step, Round::down);
  const double apart = (down - up) / step;
  if (apart > 0.5) return {decimal(least, decimals, Round::up), decimal(most, decimals, Round::down)};
  // A single size is itself, to the nearer side.
  const bool one_size = std::abs(most - least) < slack * step;
  if (one_size && apart > -0.5)
    return {decimal(least, decimals, Round::nearest), decimal(most, decimals, Round::nearest)};
  ++decimals;
  return {decimal(least, decimals, one_size ? Round::nearest : Round::up),
          decimal(most, decimals, one_size ? Round::nearest : Round::down)};
}

/// The fraction of an inch that is the same number as the decimal, both rounded to that side; none where a 64th is
/// too coarse for it.
std::optional<Number> same_fraction(Length length, Round round) {
  const double fraction = rounded(length / inch, 1.0 / 64, round);
  if (decimal(fraction, 3, round) != decimal(in_inches(length), 3, round)) return std::nullopt;
  return Number{vulgar_fraction(length, round)};
}

}  // namespace

double rounded(double value, double step, Round round) {
  const double steps = value / step;
  const double nearest = std::round(steps);
  if (round == Round::nearest || std::abs(steps - nearest) < slack) return nearest * step;
  return (round == Round::down ? std::floor(steps) : std::ceil(steps)) * step;
}

bool fits(Length room, Length thing) { return thing <= room + 1e-4 * mm; }

std::string vulgar_fraction(Length length, Round round) {
  const auto parts = static_cast<long>(std::lround(rounded(length / inch, 1.0 / 64, round) * 64));
  const long whole_inches = std::abs(parts) / 64;
  const long top = std::abs(parts) % 64;
  const std::string sign = parts < 0 ? "-" : "";
  if (top == 0) return fmt::format("{}{}", sign, whole_inches);
  const long common = std::gcd(top, 64L);
  const std::string part = fmt::format("{}/{}", top / common, 64 / common);
  return whole_inches == 0 ? sign + part : fmt::format("{}{}-{}", sign, whole_inches, part);
}

Number number(Length length, Printing how) {
  return decimal(in_unit(length, how.system), decimals_of(how.system, how.fineness), how.round);
}

Number rule_number(Length length, Printing how) {
  if (how.system == UnitSystem::metric || how.fineness == Fineness::measured) return number(length, how);
  return same_fraction(length, how.round).value_or(number(length, how));
}

Number drawn_number(Length length, Printing how) {
  if (how.system == UnitSystem::inches) return number(length, how);
  const double value =
      rounded(in_unit(length, how.system), std::pow(10.0, -decimals_of(how.system, how.fineness)), how.round);
  for (int decimals = 0;; ++decimals) {
    const double step = std::pow(10.0, -decimals);
    if (std::abs(rounded(value, step, Round::nearest) - value) < slack) return decimal(value, decimals);
  }
}

Printed printed(Length length, Printing how) {
  const Number exact = number(length, how), shown = rule_number(length, how);
  Printed out = printed(shown, column_unit<Length>(how.system));
  if (shown != exact) out.aside = exact;
  return out;
}

Number number(Mass mass, UnitSystem system, Round round) {
  return decimal(in_unit(mass, system), mass_decimals(system), round);
}

Window window(Length least, Length most, UnitSystem system, Fineness fineness) {
  return window(in_unit(least, system), in_unit(most, system), decimals_of(system, fineness));
}

Window window(Mass least, Mass most, UnitSystem system) {
  return window(in_unit(least, system), in_unit(most, system), mass_decimals(system));
}

Printed printed(Area area, UnitSystem system) {
  return system == UnitSystem::metric ? printed(decimal(area / mm2, 1), PrintedUnit::square_mm)
                                      : printed(decimal(area / inch2, 4), PrintedUnit::square_in);
}

Printed printed(Volume volume, UnitSystem system) {
  return system == UnitSystem::metric ? printed(decimal(volume / cm3, 1), PrintedUnit::cubic_cm)
                                      : printed(decimal(volume / (inch * inch * inch), 2), PrintedUnit::cubic_in);
}

Printed printed(Force force, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? printed(decimal(force / newton, 0, round), PrintedUnit::N)
                                      : printed(decimal(force / pound_force, 0, round), PrintedUnit::lbf);
}

Printed printed(Stress stress, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? printed(decimal(stress / megapascal, 1, round), PrintedUnit::MPa)
                                      : printed(decimal(stress / psi, 0, round), PrintedUnit::lbf_per_in2);
}

Printed printed(Torque torque, UnitSystem system, Round round) {
  return system == UnitSystem::metric
             ? printed(decimal(torque / newton_metre, 2, round), PrintedUnit::Nm)
             : printed(decimal(torque / (pound_force * inch), 1, round), PrintedUnit::lbf_in);
}

Printed printed(Mass mass, UnitSystem system, Round round) {
  constexpr Mass most_in_ounces = 2 * pound;
  if (system == UnitSystem::inches && abs(mass) >= most_in_ounces)
    return printed(decimal(mass / pound, 2, round), PrintedUnit::lb);
  return printed(number(mass, system, round), column_unit<Mass>(system));
}

Printed printed(Density density, UnitSystem system, Round round) {
  return system == UnitSystem::metric
             ? printed(decimal(density / (gram / cm3), 2, round), PrintedUnit::g_per_cm3)
             : printed(decimal(density / (pound / (foot * foot * foot)), 1, round), PrintedUnit::lb_per_ft3);
}

namespace {

Printed printed_degrees(Temperature point, UnitSystem system, int decimals, Round round) {
  return system == UnitSystem::metric
             ? printed(decimal((point - ice_point) / kelvin, decimals, round), PrintedUnit::celsius)
             : printed(decimal((point - fahrenheit(0)) / fahrenheit_degree, decimals, round),
                       PrintedUnit::fahrenheit);
}

Printed printed_pressure(Stress pressure, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? printed(decimal(pressure / kilopascal, 1, round), PrintedUnit::kPa)
                                      : printed(decimal(pressure / inch_of_mercury, 2, round), PrintedUnit::inHg);
}

}  // namespace

Printed printed(Temperature point, UnitSystem system, Round round) {
  return printed_degrees(point, system, 0, round);
}

Printed printed_to_a_tenth(Temperature point, UnitSystem system) {
  return printed_degrees(point, system, 1, Round::nearest);
}

Printed printed(AbsolutePressure pressure, UnitSystem system, Round round) {
  return printed_pressure(pressure - AbsolutePressure{}, system, round);
}

Printed printed(GaugePressure pressure, UnitSystem system, Round round) {
  return printed_pressure(GaugePressure{} - pressure, system, round);
}

Printed printed(RotationalSpeed speed, Round round) {
  return printed(decimal(speed / per_minute, 0, round), PrintedUnit::rpm);
}

Printed printed(VolumeFlow flow, UnitSystem system) {
  return system == UnitSystem::metric
             ? printed(decimal(flow / litre_per_minute, 0), PrintedUnit::l_per_min)
             : printed(decimal(flow / (foot * foot * foot / minute), 1), PrintedUnit::ft3_per_min);
}

Printed printed_liquid(Volume volume, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? printed(decimal(volume / litre, 2, round), PrintedUnit::l)
                                      : printed(decimal(volume / (gallon / 4), 2, round), PrintedUnit::qt);
}

Printed printed(Duration duration, Round round) {
  const auto all = static_cast<long>(std::lround(rounded(duration / minute, 1, round)));
  const Amount full{{fmt::format("{}", all / 60)}, PrintedUnit::h};
  const Amount rest{{fmt::format("{}", all < 60 ? all : all % 60)}, PrintedUnit::min};
  if (all < 60) return {.amounts = {rest}};
  if (all % 60 == 0) return {.amounts = {full}};
  return {.amounts = {full, rest}};
}

Printed printed(Share share, Round round) {
  return printed(decimal(share / percent, 1, round), PrintedUnit::per_cent);
}

std::string text(Angle angle) {
  const double degrees = std::round(angle / degree * 100) / 100;  // divided, so that 0.35 prints as 0.35
  return fmt::format("{}°", degrees == 0 ? 0 : degrees);
}

}  // namespace blankwright
