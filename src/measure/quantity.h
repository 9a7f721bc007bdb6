#pragma once

#include <cmath>
#include <compare>
#include <numbers>

namespace blankwright {

/// A physical quantity: SI inside, and private. The parameters are powers of metre, kilogram, second, kelvin.
/// It is made by multiplying a unit (`25 * mm`) and read by dividing by one (`depth / inch`); there is no other way.
template <int M, int Kg, int S, int K>
class Quantity {
 public:
  constexpr Quantity() = default;
  /// The coherent SI unit of this dimension, of which all other units are made.
  static constexpr Quantity unit() { return Quantity{1.0}; }

  constexpr auto operator<=>(const Quantity&) const = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity{a.si_ + b.si_}; }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity{a.si_ - b.si_}; }
  friend constexpr Quantity operator-(Quantity a) { return Quantity{-a.si_}; }
  friend constexpr Quantity operator*(double n, Quantity a) { return Quantity{n * a.si_}; }
  friend constexpr Quantity operator*(Quantity a, double n) { return n * a; }
  friend constexpr Quantity operator/(Quantity a, double n) { return Quantity{a.si_ / n}; }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.si_ / b.si_; }
  constexpr Quantity& operator+=(Quantity b) { return *this = *this + b; }
  constexpr Quantity& operator-=(Quantity b) { return *this = *this - b; }

 private:
  explicit constexpr Quantity(double value) : si_{value} {}
  double si_ = 0;
};

template <int M, int Kg, int S, int K, int M2, int Kg2, int S2, int K2>
constexpr auto operator*(Quantity<M, Kg, S, K> a, Quantity<M2, Kg2, S2, K2> b) {
  const double product = (a / a.unit()) * (b / b.unit());
  if constexpr (M + M2 == 0 && Kg + Kg2 == 0 && S + S2 == 0 && K + K2 == 0) {
    return product;
  } else {
    return product * Quantity<M + M2, Kg + Kg2, S + S2, K + K2>::unit();
  }
}

template <int M, int Kg, int S, int K, int M2, int Kg2, int S2, int K2>
constexpr auto operator/(Quantity<M, Kg, S, K> a, Quantity<M2, Kg2, S2, K2> b) {
  return (a / a.unit()) / (b / b.unit()) * Quantity<M - M2, Kg - Kg2, S - S2, K - K2>::unit();
}

template <int M, int Kg, int S, int K>
constexpr auto operator/(double n, Quantity<M, Kg, S, K> a) {
  return n / (a / a.unit()) * Quantity<-M, -Kg, -S, -K>::unit();
}

template <int M, int Kg, int S, int K>
constexpr Quantity<M, Kg, S, K> abs(Quantity<M, Kg, S, K> a) {
  return a < Quantity<M, Kg, S, K>{} ? -a : a;
}

using Length = Quantity<1, 0, 0, 0>;
using Area = Quantity<2, 0, 0, 0>;
using Volume = Quantity<3, 0, 0, 0>;
using Mass = Quantity<0, 1, 0, 0>;
using Duration = Quantity<0, 0, 1, 0>;
using TemperatureChange = Quantity<0, 0, 0, 1>;  ///< a difference; a point on the scale is a Temperature
using Density = Quantity<-3, 1, 0, 0>;
using Force = Quantity<1, 1, -2, 0>;
using Stress = Quantity<-1, 1, -2, 0>;  ///< also a difference of pressures
using Torque = Quantity<2, 1, -2, 0>;
using Speed = Quantity<1, 0, -1, 0>;
using RotationalSpeed = Quantity<0, 0, -1, 0>;
using VolumeFlow = Quantity<3, 0, -1, 0>;

/// A number without a dimension that must not be mixed with other such numbers.
template <class Tag>
class Scalar {
 public:
  constexpr Scalar() = default;
  static constexpr Scalar unit() { return Scalar{1.0}; }
  constexpr auto operator<=>(const Scalar&) const = default;
  friend constexpr Scalar operator+(Scalar a, Scalar b) { return Scalar{a.value_ + b.value_}; }
  friend constexpr Scalar operator-(Scalar a, Scalar b) { return Scalar{a.value_ - b.value_}; }
  friend constexpr Scalar operator*(double n, Scalar a) { return Scalar{n * a.value_}; }
  friend constexpr Scalar operator/(Scalar a, double n) { return Scalar{a.value_ / n}; }
  friend constexpr double operator/(Scalar a, Scalar b) { return a.value_ / b.value_; }

 private:
  explicit constexpr Scalar(double value) : value_{value} {}
  double value_ = 0;
};

using Angle = Scalar<struct AngleTag>;  ///< made of radians
using Share = Scalar<struct ShareTag>;  ///< a part of a whole, made of percent; moisture is a share of the dry mass

/// A point on a scale: two points cannot be added, and their difference is a Quantity.
template <class Tag, class Difference>
class Point {
 public:
  constexpr Point() = default;
  /// The point that lies `above` the scale's zero.
  static constexpr Point above_zero(Difference above) { return Point{above}; }
  constexpr auto operator<=>(const Point&) const = default;
  friend constexpr Difference operator-(Point a, Point b) { return a.above_ - b.above_; }
  friend constexpr Point operator+(Point a, Difference b) { return Point{a.above_ + b}; }
  friend constexpr Point operator-(Point a, Difference b) { return Point{a.above_ - b}; }

 private:
  explicit constexpr Point(Difference above) : above_{above} {}
  Difference above_{};
};

using Temperature = Point<struct TemperatureTag, TemperatureChange>;  ///< zero at 0 K
using AbsolutePressure = Point<struct AbsolutePressureTag, Stress>;   ///< zero at vacuum
using GaugePressure = Point<struct GaugePressureTag, Stress>;         ///< zero at the surrounding air's pressure

/// What a gauge reads when the air around it has `atmosphere`; negative under vacuum.
constexpr GaugePressure gauge_of(AbsolutePressure inside, AbsolutePressure atmosphere) {
  return GaugePressure::above_zero(inside - atmosphere);
}
constexpr AbsolutePressure absolute_of(GaugePressure reading, AbsolutePressure atmosphere) {
  return atmosphere + (reading - GaugePressure{});
}

// Units. Factors are exact by definition (NIST SP 811, 2008, appendix B) unless said.
inline constexpr Length metre = Length::unit();
inline constexpr Length mm = 1e-3 * metre;
inline constexpr Length cm = 1e-2 * metre;
inline constexpr Length inch = 0.0254 * metre;
inline constexpr Length foot = 12 * inch;
inline constexpr Area mm2 = mm * mm;
inline constexpr Area inch2 = inch * inch;
inline constexpr Volume cm3 = cm * cm * cm;
inline constexpr Volume litre = 1000 * cm3;
inline constexpr Volume millilitre = cm3;
inline constexpr Volume gallon = 231 * (inch * inch * inch);  ///< US liquid
inline constexpr Volume fluid_ounce = gallon / 128;           ///< US
inline constexpr Mass kilogram = Mass::unit();
inline constexpr Mass gram = 1e-3 * kilogram;
inline constexpr Mass pound = 0.45359237 * kilogram;
inline constexpr Mass ounce = pound / 16;
inline constexpr Duration second = Duration::unit();
inline constexpr Duration minute = 60 * second;
inline constexpr Duration hour = 60 * minute;
inline constexpr TemperatureChange kelvin = TemperatureChange::unit();
inline constexpr TemperatureChange fahrenheit_degree = kelvin / 1.8;
inline constexpr Temperature ice_point = Temperature::above_zero(273.15 * kelvin);
inline constexpr Force newton = Force::unit();
inline constexpr Force kilonewton = 1000 * newton;
inline constexpr Force pound_force = 9.80665 * (0.45359237 * newton);
inline constexpr Torque newton_metre = Torque::unit();
inline constexpr Stress pascal = Stress::unit();
inline constexpr Stress kilopascal = 1000 * pascal;
inline constexpr Stress megapascal = 1e6 * pascal;
inline constexpr Stress inch_of_mercury = 3386.389 * pascal;  ///< conventional, at 0 °C
inline constexpr Stress psi = pound_force / inch2;
inline constexpr Density kilogram_per_m3 = Density::unit();
inline constexpr RotationalSpeed per_minute = 1.0 / minute;
inline constexpr VolumeFlow litre_per_minute = litre / minute;
inline constexpr Angle radian = Angle::unit();
inline constexpr Angle degree = std::numbers::pi / 180 * radian;
inline constexpr Share whole = Share::unit();
inline constexpr Share percent = 0.01 * whole;

inline double tan(Angle a) { return std::tan(a / radian); }
inline Length sqrt(Area a) { return std::sqrt(a / Area::unit()) * metre; }

/// Degrees Celsius as a point on the scale.
constexpr Temperature celsius(double degrees) { return ice_point + degrees * kelvin; }
constexpr Temperature fahrenheit(double degrees) { return ice_point + (degrees - 32) * fahrenheit_degree; }

}  // namespace blankwright
