#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <tl/expected.hpp>

#include "measure/printed.h"
#include "measure/quantity.h"
#include "measure/units.h"

namespace blankwright {

/// Why a text is not a quantity of the wanted kind.
struct QuantityFault {
  enum class Cause { bare_number, not_a_quantity, unknown_unit, other_kind, fraction_by_zero, out_of_range } cause;
  std::string message;  ///< "bare number where a length belongs"
  std::string hint;     ///< text that can be pasted in its place, or empty
};

/// Reads a quantity as people type it: `45 mm`, `1-3/4 in`, `1 3/4"`, `1¾ in`, `2 h 30 min`, `1 ft 3 in`, `93 °C`.
/// Digits with a full stop; no thousands separator, no exponent. The result is in SI units (of the kind's scale for
/// temperatures: kelvin). No locale has a say.
tl::expected<double, QuantityFault> read_si(std::string_view text, Kind kind);

/// The kind that a C++ type stands for, and the way between it and its SI value.
template <class Q>
struct KindOf;
template <Kind k, class Q>
struct QuantityKind {
  static constexpr Kind kind = k;
  static constexpr Q from_si(double value) { return value * Q::unit(); }
  static constexpr double to_si(Q q) { return q / Q::unit(); }
};
template <Kind k, class P, class Difference>
struct PointKind {
  static constexpr Kind kind = k;
  static constexpr P from_si(double value) { return P::above_zero(value * Difference::unit()); }
  static constexpr double to_si(P p) { return (p - P{}) / Difference::unit(); }
};
template <>
struct KindOf<Length> : QuantityKind<Kind::length, Length> {};
template <>
struct KindOf<Volume> : QuantityKind<Kind::volume, Volume> {};
template <>
struct KindOf<Mass> : QuantityKind<Kind::mass, Mass> {};
template <>
struct KindOf<Duration> : QuantityKind<Kind::duration, Duration> {};
template <>
struct KindOf<Force> : QuantityKind<Kind::force, Force> {};
template <>
struct KindOf<Torque> : QuantityKind<Kind::torque, Torque> {};
template <>
struct KindOf<Stress> : QuantityKind<Kind::stress, Stress> {};
template <>
struct KindOf<Density> : QuantityKind<Kind::density, Density> {};
template <>
struct KindOf<Angle> : QuantityKind<Kind::angle, Angle> {};
template <>
struct KindOf<Share> : QuantityKind<Kind::share, Share> {};
template <>
struct KindOf<RotationalSpeed> : QuantityKind<Kind::rotational_speed, RotationalSpeed> {};
template <>
struct KindOf<VolumeFlow> : QuantityKind<Kind::volume_flow, VolumeFlow> {};
template <>
struct KindOf<TemperatureChange> : QuantityKind<Kind::temperature_change, TemperatureChange> {};
template <>
struct KindOf<Temperature> : PointKind<Kind::temperature, Temperature, TemperatureChange> {};
template <>
struct KindOf<AbsolutePressure> : PointKind<Kind::absolute_pressure, AbsolutePressure, Stress> {};
template <>
struct KindOf<GaugePressure> : PointKind<Kind::gauge_pressure, GaugePressure, Stress> {};

/// Reads a quantity of type Q; see read_si.
template <class Q>
tl::expected<Q, QuantityFault> read_quantity(std::string_view text) {
  return read_si(text, KindOf<Q>::kind).map([](double si) { return KindOf<Q>::from_si(si); });
}

enum class UnitSystem { metric, inches };

/// To which side a printed figure may err: down for "at most", up for "at least".
enum class Round { nearest, down, up };

/// How finely a length is printed. `sawn`: what a rule or a saw's fence can set (0.1 mm; 1/64 in with the decimal
/// beside it, or the decimal alone where no 1/64 is the same number). `measured`: what a caliper or a feeler shows
/// (0.01 mm; 0.001 in).
enum class Fineness { sawn, measured };

struct Printing {
  UnitSystem system = UnitSystem::metric;
  Round round = Round::nearest;
  Fineness fineness = Fineness::sawn;
};

/// "45.0 mm"; in inches "1-49/64 in (1.766)", "1.770 in"; measured: "0.35 mm", "0.014 in". A value within a millionth
/// of a step of a printable one is that one, so that 12.700000000001 mm rounded up stays 1/2 in.
Printed printed(Length length, Printing how);
Printed printed(Area area, UnitSystem system);                                    ///< "36.6 mm²", "0.0524 in²"
Printed printed(Volume volume, UnitSystem system);                                ///< "61.2 cm³", "3.73 in³"
Printed printed(Force force, UnitSystem system, Round round = Round::nearest);    ///< "1800 N", "405 lbf"
Printed printed(Stress stress, UnitSystem system, Round round = Round::nearest);  ///< "4.0 MPa", "580 psi"
Printed printed(Torque torque, UnitSystem system, Round round = Round::nearest);  ///< "3.00 N m", "26.6 lbf in"
Printed printed(Mass mass, UnitSystem system, Round round = Round::nearest);  ///< "412.5 g", "14.55 oz", "8.82 lb"
Printed printed(Density density, UnitSystem system, Round round = Round::nearest);  ///< "1.04 g/cm³", "64.9 lb/ft³"
Printed printed(Temperature point, UnitSystem system, Round round = Round::nearest);  ///< "93 °C", "199 °F"
/// "85.5 °C", "185.9 °F": as it is read, and where two are compared, since 200 °F is not 93 °C.
Printed printed_to_a_tenth(Temperature point, UnitSystem system);
Printed printed(AbsolutePressure pressure, UnitSystem system,
                Round round = Round::nearest);  ///< "5.0 kPa", "1.48 inHg"
Printed printed(GaugePressure pressure, UnitSystem system,
                Round round = Round::nearest);  ///< how far below the air, as it stands on a gauge: "96.3 kPa"
Printed printed(RotationalSpeed speed, Round round = Round::nearest);  ///< "2500 rpm"
Printed printed(VolumeFlow flow, UnitSystem system);                   ///< "40 l/min", "1.4 ft³/min"
Printed printed(Duration duration, Round round = Round::nearest);      ///< "2 h 30 min", "45 min"
Printed printed(Share share, Round round = Round::nearest);            ///< "8.2 %"
/// A liquid: "1.75 l", "1.85 qt"; rounded to 0.01 of either.
Printed printed_liquid(Volume volume, UnitSystem system, Round round = Round::nearest);

/// The same as a text, for messages.
template <class Quantity, class... How>
requires requires(const Quantity& quantity, const How&... how) { printed(quantity, how...); }
std::string text(const Quantity& quantity, const How&... how) { return text(printed(quantity, how...)); }
inline std::string liquid_text(Volume volume, UnitSystem system, Round round = Round::nearest) {
  return text(printed_liquid(volume, system, round));
}
inline std::string text(Length length, const Printing& how) { return text(printed(length, how)); }
std::string text(Angle angle);  ///< "118°"

/// The number alone, for columns whose head names the unit: millimetres or inches, decimal.
Number number(Length length, Printing how);

/// The number alone as a rule shows it: "45.0"; in inches "1-49/64" where that and the decimal are the same number,
/// else the decimal.
Number rule_number(Length length, Printing how);

/// The number alone as a drawing shows it: millimetres without noughts at their end.
Number drawn_number(Length length, Printing how);

/// "1-49/64" or "0": the length as the nearest vulgar fraction of an inch with a denominator of at most 64.
std::string vulgar_fraction(Length length, Round round);

/// The number alone, for columns whose head names the unit: grams or ounces, whatever the mass.
Number number(Mass mass, UnitSystem system, Round round = Round::nearest);

/// What a column of numbers alone is in: every head of a column asks here.
template <class Q>
PrintedUnit column_unit(UnitSystem system);
template <>
constexpr PrintedUnit column_unit<Length>(UnitSystem system) {
  return system == UnitSystem::metric ? PrintedUnit::millimetres : PrintedUnit::inches;
}
template <>
constexpr PrintedUnit column_unit<Mass>(UnitSystem system) {
  return system == UnitSystem::metric ? PrintedUnit::g : PrintedUnit::oz;
}

/// What something is at least and at most, the numbers alone.
struct Window {
  Number least, most;
};

/// "29.5" to "30.5": the least rounded up, the most down. Where that would leave nothing between them, one digit
/// more.
Window window(Length least, Length most, UnitSystem system, Fineness fineness);
Window window(Mass least, Mass most, UnitSystem system);

/// `value` rounded to a multiple of `step` to the given side, with a slack of a millionth of a step.
double rounded(double value, double step, Round round);

/// Does a thing fit into the room? With the one slack that is granted to arithmetic: a tenth of a micrometre.
bool fits(Length room, Length thing);

}  // namespace blankwright
