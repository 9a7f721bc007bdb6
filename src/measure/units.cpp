#include "measure/units.h"

#include <array>

#include "measure/quantity.h"

namespace blankwright {
namespace {

constexpr double si(Length q) { return q / metre; }
constexpr double si(Volume q) { return q / Volume::unit(); }
constexpr double si(Mass q) { return q / kilogram; }
constexpr double si(Duration q) { return q / second; }
constexpr double si(Force q) { return q / newton; }
constexpr double si(Stress q) { return q / pascal; }
constexpr double si(Torque q) { return q / newton_metre; }
constexpr double ice = (ice_point - Temperature{}) / kelvin;
constexpr double fahrenheit_zero = (fahrenheit(0) - Temperature{}) / kelvin;
constexpr double pound_foot = si(pound_force * foot);

// Factors: NIST SP 811 (2008), appendix B; all exact but the inch of mercury, which is conventional at 0 °C.
constexpr auto names = std::to_array<UnitName>({
    {"mm", Kind::length, si(mm)},
    {"cm", Kind::length, si(cm)},
    {"m", Kind::length, 1, 0, true},
    {"µm", Kind::length, 1e-6},
    {"μm", Kind::length, 1e-6},  // with the Greek letter, as some keyboards write it
    {"um", Kind::length, 1e-6},
    {"in", Kind::length, si(inch)},
    {"inch", Kind::length, si(inch)},
    {"inches", Kind::length, si(inch)},
    {"\"", Kind::length, si(inch)},
    {"″", Kind::length, si(inch)},
    {"ft", Kind::length, si(foot)},
    {"'", Kind::length, si(foot)},
    {"′", Kind::length, si(foot)},
    {"ml", Kind::volume, si(millilitre)},
    {"cl", Kind::volume, 10 * si(millilitre)},
    {"l", Kind::volume, si(litre)},
    {"litre", Kind::volume, si(litre)},
    {"litres", Kind::volume, si(litre)},
    {"cm3", Kind::volume, si(cm3)},
    {"cm³", Kind::volume, si(cm3)},
    {"gal", Kind::volume, si(gallon)},
    {"qt", Kind::volume, si(gallon) / 4},
    {"pt", Kind::volume, si(gallon) / 8},
    {"fl oz", Kind::volume, si(fluid_ounce)},
    {"g", Kind::mass, si(gram)},
    {"kg", Kind::mass, 1},
    {"oz", Kind::mass, si(ounce)},
    {"lb", Kind::mass, si(pound)},
    {"s", Kind::duration, 1},
    {"min", Kind::duration, si(minute)},
    {"h", Kind::duration, si(hour)},
    {"hours", Kind::duration, si(hour)},
    {"d", Kind::duration, 24 * si(hour)},
    {"days", Kind::duration, 24 * si(hour)},
    {"week", Kind::duration, 7 * 24 * si(hour)},
    {"weeks", Kind::duration, 7 * 24 * si(hour)},
    {"N", Kind::force, 1},
    {"kN", Kind::force, 1000},
    {"lbf", Kind::force, si(pound_force)},
    {"N m", Kind::torque, 1},
    {"Nm", Kind::torque, 1},
    {"N·m", Kind::torque, 1},
    {"lbf ft", Kind::torque, pound_foot},
    {"lbf·ft", Kind::torque, pound_foot},
    {"lbf in", Kind::torque, pound_foot / 12},
    {"lbf·in", Kind::torque, pound_foot / 12},
    {"Pa", Kind::stress, 1},
    {"kPa", Kind::stress, 1e3},
    {"MPa", Kind::stress, 1e6, 0, true},
    {"N/mm2", Kind::stress, 1e6},
    {"N/mm²", Kind::stress, 1e6},
    {"bar", Kind::stress, 1e5},
    {"mbar", Kind::stress, 100},
    {"hPa", Kind::stress, 100},
    {"psi", Kind::stress, si(psi)},
    {"inHg", Kind::stress, si(inch_of_mercury)},
    {"mmHg", Kind::stress, si(inch_of_mercury) / 25.4},
    {"kg/m3", Kind::density, 1},
    {"kg/m³", Kind::density, 1},
    {"g/cm3", Kind::density, 1000},
    {"g/cm³", Kind::density, 1000},
    {"g/ml", Kind::density, 1000},
    {"lb/ft3", Kind::density, si(pound) / (0.3048 * 0.3048 * 0.3048)},
    {"°", Kind::angle, degree / radian},
    {"deg", Kind::angle, degree / radian},
    {"rad", Kind::angle, 1},
    {"%", Kind::share, 0.01},
    {"percent", Kind::share, 0.01},
    {"rpm", Kind::rotational_speed, 1.0 / 60},
    {"1/min", Kind::rotational_speed, 1.0 / 60},
    {"l/min", Kind::volume_flow, si(litre) / 60},
    {"m3/h", Kind::volume_flow, 1.0 / 3600},
    {"m³/h", Kind::volume_flow, 1.0 / 3600},
    {"ft3/min", Kind::volume_flow, 0.3048 * 0.3048 * 0.3048 / 60},
    {"cfm", Kind::volume_flow, 0.3048 * 0.3048 * 0.3048 / 60},
    {"°C", Kind::temperature, 1, ice},
    {"degC", Kind::temperature, 1, ice},
    {"C", Kind::temperature, 1, ice, true},
    {"°F", Kind::temperature, 1 / 1.8, fahrenheit_zero},
    {"degF", Kind::temperature, 1 / 1.8, fahrenheit_zero},
    {"F", Kind::temperature, 1 / 1.8, fahrenheit_zero, true},
    {"K", Kind::temperature, 1, 0, true},
});

// Differences of temperature and both pressures share the spellings of their neighbours.
constexpr auto differences = std::to_array<UnitName>({
    {"K", Kind::temperature_change, 1},
    {"°C", Kind::temperature_change, 1},
    {"degC", Kind::temperature_change, 1},
    {"°F", Kind::temperature_change, 1 / 1.8},
    {"degF", Kind::temperature_change, 1 / 1.8},
});

constexpr auto all = [] {
  constexpr auto is_pressure = [](const UnitName& u) { return u.kind == Kind::stress; };
  constexpr auto pressures = [&] {
    std::size_t n = 0;
    for (const UnitName& u : names) n += is_pressure(u) ? 1U : 0U;
    return n;
  }();
  std::array<UnitName, names.size() + differences.size() + 2 * pressures> out{};
  std::size_t at = 0;
  for (const UnitName& u : names) out[at++] = u;
  for (const UnitName& u : differences) out[at++] = u;
  for (const Kind kind : {Kind::absolute_pressure, Kind::gauge_pressure}) {
    for (const UnitName& u : names) {
      if (!is_pressure(u)) continue;
      out[at] = u;
      out[at++].kind = kind;
    }
  }
  return out;
}();

}  // namespace

std::span<const UnitName> unit_names() { return all; }

std::string_view kind_name(Kind kind) {
  switch (kind) {
    case Kind::length:
      return "length";
    case Kind::volume:
      return "volume";
    case Kind::mass:
      return "mass";
    case Kind::duration:
      return "span of time";
    case Kind::force:
      return "force";
    case Kind::torque:
      return "torque";
    case Kind::stress:
      return "stress";
    case Kind::density:
      return "density";
    case Kind::angle:
      return "angle";
    case Kind::share:
      return "percentage";
    case Kind::rotational_speed:
      return "speed of rotation";
    case Kind::volume_flow:
      return "flow";
    case Kind::temperature:
      return "temperature";
    case Kind::temperature_change:
      return "difference of temperature";
    case Kind::absolute_pressure:
      return "absolute pressure";
    case Kind::gauge_pressure:
      return "gauge pressure";
  }
  return {};
}

std::string with_article(Kind kind) {
  const std::string_view name = kind_name(kind);
  return (name.starts_with('a') ? "an " : "a ") + std::string{name};
}

std::string_view example(Kind kind) {
  switch (kind) {
    case Kind::length:
      return "45 mm";
    case Kind::volume:
      return "1.5 l";
    case Kind::mass:
      return "70 g";
    case Kind::duration:
      return "2 h 30 min";
    case Kind::force:
      return "0.5 kN";
    case Kind::torque:
      return "3 N m";
    case Kind::stress:
      return "4 MPa";
    case Kind::density:
      return "1.05 g/cm3";
    case Kind::angle:
      return "118 deg";
    case Kind::share:
      return "8 %";
    case Kind::rotational_speed:
      return "1200 rpm";
    case Kind::volume_flow:
      return "40 l/min";
    case Kind::temperature:
      return "93 °C";
    case Kind::temperature_change:
      return "5 K";
    case Kind::absolute_pressure:
      return "3 kPa";
    case Kind::gauge_pressure:
      return "28 inHg";
  }
  return {};
}

std::string_view usual_unit(Kind kind) {
  return kind == Kind::duration ? "min" : example(kind).substr(example(kind).find(' ') + 1);
}

}  // namespace blankwright
