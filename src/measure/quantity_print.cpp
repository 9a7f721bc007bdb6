#include "measure/quantity_text.h"

#include <fmt/format.h>

#include <cmath>
#include <numeric>
#include <optional>

namespace blankwright {
namespace {

constexpr double slack = 1e-6;  // of a step: what arithmetic may have added to a value that is meant exactly

/// Minus zero is not a thing to print.
double plain(double value) { return value == 0 ? 0 : value; }

/// A number with so many decimals, rounded to the given side.
std::string decimal(double value, int decimals, Round round) {
  return fmt::format("{:.{}f}", plain(rounded(value, std::pow(10.0, -decimals), round)), decimals);
}

double in_unit(Length length, UnitSystem system) { return length / (system == UnitSystem::metric ? mm : inch); }
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
std::optional<std::string> same_fraction(Length length, Round round) {
  const double fraction = rounded(length / inch, 1.0 / 64, round);
  if (decimal(fraction, 3, round) != decimal(length / inch, 3, round)) return std::nullopt;
  return vulgar_fraction(length, round);
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

std::string number(Length length, Printing how) {
  return decimal(in_unit(length, how.system), decimals_of(how.system, how.fineness), how.round);
}

std::string rule_number(Length length, Printing how) {
  if (how.system == UnitSystem::metric || how.fineness == Fineness::measured) return number(length, how);
  return same_fraction(length, how.round).value_or(number(length, how));
}

std::string text(Length length, Printing how) {
  const std::string_view unit = length_unit(how.system);
  const std::string exact = number(length, how), shown = rule_number(length, how);
  return shown == exact ? fmt::format("{} {}", exact, unit) : fmt::format("{} {} ({})", shown, unit, exact);
}

std::string number(Mass mass, UnitSystem system, Round round) {
  return decimal(in_unit(mass, system), mass_decimals(system), round);
}

std::string_view mass_unit(UnitSystem system) { return system == UnitSystem::metric ? "g" : "oz"; }
std::string_view length_unit(UnitSystem system) { return system == UnitSystem::metric ? "mm" : "in"; }

Window window(Length least, Length most, UnitSystem system, Fineness fineness) {
  return window(in_unit(least, system), in_unit(most, system), decimals_of(system, fineness));
}

Window window(Mass least, Mass most, UnitSystem system) {
  return window(in_unit(least, system), in_unit(most, system), mass_decimals(system));
}

std::string text(Area area, UnitSystem system) {
  return system == UnitSystem::metric ? fmt::format("{:.1f} mm²", area / mm2)
                                      : fmt::format("{:.4f} in²", area / inch2);
}

std::string text(Volume volume, UnitSystem system) {
  return system == UnitSystem::metric ? fmt::format("{:.1f} cm³", volume / cm3)
                                      : fmt::format("{:.2f} in³", volume / (inch * inch * inch));
}

std::string text(Force force, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? fmt::format("{:.0f} N", plain(rounded(force / newton, 1, round)))
                                      : fmt::format("{:.0f} lbf", plain(rounded(force / pound_force, 1, round)));
}

std::string text(Stress stress, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? decimal(stress / megapascal, 1, round) + " MPa"
                                      : decimal(stress / psi, 0, round) + " psi";
}

std::string text(Torque torque, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? decimal(torque / newton_metre, 2, round) + " N m"
                                      : decimal(torque / (pound_force * inch), 1, round) + " lbf in";
}

std::string text(Mass mass, UnitSystem system, Round round) {
  constexpr Mass most_in_ounces = 2 * pound;
  if (system == UnitSystem::inches && abs(mass) >= most_in_ounces) return decimal(mass / pound, 2, round) + " lb";
  return fmt::format("{} {}", number(mass, system, round), mass_unit(system));
}

std::string text(Density density, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? decimal(density / (gram / cm3), 2, round) + " g/cm³"
                                      : decimal(density / (pound / (foot * foot * foot)), 1, round) + " lb/ft³";
}

std::string text(Temperature temperature, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? decimal((temperature - ice_point) / kelvin, 0, round) + " °C"
                                      : decimal((temperature - fahrenheit(0)) / fahrenheit_degree, 0, round) + " °F";
}

namespace {

std::string pressure_text(Stress pressure, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? decimal(pressure / kilopascal, 1, round) + " kPa"
                                      : decimal(pressure / inch_of_mercury, 2, round) + " inHg";
}

}  // namespace

std::string text(AbsolutePressure pressure, UnitSystem system, Round round) {
  return pressure_text(pressure - AbsolutePressure{}, system, round);
}

std::string text(GaugePressure pressure, UnitSystem system, Round round) {
  return pressure_text(pressure - GaugePressure{}, system, round);
}

std::string text(RotationalSpeed speed, Round round) { return decimal(speed / per_minute, 0, round) + " rpm"; }

std::string text(VolumeFlow flow, UnitSystem system) {
  return system == UnitSystem::metric ? fmt::format("{:.0f} l/min", flow / litre_per_minute)
                                      : fmt::format("{:.1f} ft³/min", flow / (foot * foot * foot / minute));
}

std::string liquid_text(Volume volume, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? fmt::format("{:.2f} l", plain(rounded(volume / litre, 0.01, round)))
                                      : fmt::format("{:.2f} qt", plain(rounded(volume / (gallon / 4), 0.01, round)));
}

std::string text(Duration duration, Round round) {
  const auto minutes = static_cast<long>(std::lround(rounded(duration / minute, 1, round)));
  if (minutes < 60) return fmt::format("{} min", minutes);
  if (minutes % 60 == 0) return fmt::format("{} h", minutes / 60);
  return fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

std::string text(Angle angle) {
  const double degrees = std::round(angle / degree * 100) / 100;  // divided, so that 0.35 prints as 0.35
  return fmt::format("{}°", plain(degrees));
}

std::string text(Share share, Round round) { return decimal(share / percent, 1, round) + " %"; }

}  // namespace blankwright
