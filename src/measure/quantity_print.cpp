#include "measure/quantity_text.h"

#include <fmt/format.h>

#include <cmath>
#include <numeric>

namespace blankwright {
namespace {

constexpr double metric_step(Fineness fineness) { return fineness == Fineness::sawn ? 0.1 : 0.01; }
constexpr double slack = 1e-6;  // of a step: what arithmetic may have added to a value that is meant exactly

/// Minus zero is not a thing to print.
double plain(double value) { return value == 0 ? 0 : value; }

std::string decimal_inches(Length length, Round round) {
  return fmt::format("{:.3f}", plain(rounded(length / inch, 0.001, round)));
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
  if (how.system == UnitSystem::metric) {
    const double step = metric_step(how.fineness);
    return fmt::format("{:.{}f}", plain(rounded(length / mm, step, how.round)),
                       how.fineness == Fineness::sawn ? 1 : 2);
  }
  return decimal_inches(length, how.round);
}

std::string text(Length length, Printing how) {
  if (how.system == UnitSystem::metric) return number(length, how) + " mm";
  if (how.fineness == Fineness::measured) return decimal_inches(length, how.round) + " in";
  return fmt::format("{} in ({})", vulgar_fraction(length, how.round), decimal_inches(length, how.round));
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

std::string text(Stress stress, UnitSystem system) {
  return system == UnitSystem::metric ? fmt::format("{:.1f} MPa", stress / megapascal)
                                      : fmt::format("{:.0f} psi", stress / psi);
}

std::string text(Torque torque, UnitSystem system, Round round) {
  return system == UnitSystem::metric
             ? fmt::format("{:.2f} N m", plain(rounded(torque / newton_metre, 0.01, round)))
             : fmt::format("{:.1f} lbf in", plain(rounded(torque / (pound_force * inch), 0.1, round)));
}

std::string text(Mass mass, UnitSystem system, Round round) {
  if (system == UnitSystem::metric) return fmt::format("{:.1f} g", plain(rounded(mass / gram, 0.1, round)));
  constexpr Mass most_in_ounces = 2 * pound;
  return abs(mass) < most_in_ounces ? fmt::format("{:.2f} oz", plain(rounded(mass / ounce, 0.01, round)))
                                    : fmt::format("{:.2f} lb", plain(rounded(mass / pound, 0.01, round)));
}

std::string text(Density density, UnitSystem system) {
  return system == UnitSystem::metric ? fmt::format("{:.2f} g/cm³", density / (gram / cm3))
                                      : fmt::format("{:.1f} lb/ft³", density / (pound / (foot * foot * foot)));
}

std::string text(Temperature temperature, UnitSystem system) {
  if (system == UnitSystem::metric)
    return fmt::format("{:.0f} °C", plain(std::round((temperature - ice_point) / kelvin)));
  return fmt::format("{:.0f} °F", plain(std::round((temperature - fahrenheit(0)) / fahrenheit_degree)));
}

namespace {

std::string pressure_text(Stress pressure, UnitSystem system) {
  return system == UnitSystem::metric ? fmt::format("{:.1f} kPa", plain(pressure / kilopascal))
                                      : fmt::format("{:.2f} inHg", plain(pressure / inch_of_mercury));
}

}  // namespace

std::string text(AbsolutePressure pressure, UnitSystem system) {
  return pressure_text(pressure - AbsolutePressure{}, system);
}

std::string text(GaugePressure pressure, UnitSystem system) {
  return pressure_text(pressure - GaugePressure{}, system);
}

std::string text(VolumeFlow flow, UnitSystem system) {
  return system == UnitSystem::metric ? fmt::format("{:.0f} l/min", flow / litre_per_minute)
                                      : fmt::format("{:.1f} ft³/min", flow / (foot * foot * foot / minute));
}

std::string liquid_text(Volume volume, UnitSystem system, Round round) {
  return system == UnitSystem::metric ? fmt::format("{:.2f} l", plain(rounded(volume / litre, 0.01, round)))
                                      : fmt::format("{:.2f} qt", plain(rounded(volume / (gallon / 4), 0.01, round)));
}

std::string text(Duration duration) {
  const auto minutes = static_cast<long>(std::lround(duration / minute));
  if (minutes < 60) return fmt::format("{} min", minutes);
  if (minutes % 60 == 0) return fmt::format("{} h", minutes / 60);
  return fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

std::string text(Angle angle) {
  const double degrees = std::round(angle / degree * 100) / 100;  // divided, so that 0.35 prints as 0.35
  return fmt::format("{}°", plain(degrees));
}

std::string text(Share share) { return fmt::format("{:.1f} %", share / percent); }

}  // namespace blankwright
