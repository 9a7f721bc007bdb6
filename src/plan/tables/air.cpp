#include "plan/tables/air.h"

#include <array>
#include <cmath>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

// IAPWS-IF97 table 34.
constexpr std::array n{0.11670521452767e4,  -0.72421316703206e6, -0.17073846940092e2, 0.12020824702470e5,
                       -0.32325550322333e7, 0.14915108613530e2,  -0.48232657361591e4, 0.40511340542057e6,
                       -0.23855557567849,   0.65017534844798e3};

constexpr Temperature critical = Temperature::above_zero(647.096 * kelvin);
constexpr AbsolutePressure critical_pressure = AbsolutePressure::above_zero(22.064 * megapascal);

}  // namespace

AbsolutePressure standard_atmosphere(Length altitude) {
  BW_EXPECT(altitude >= -1000 * metre && altitude <= 11000 * metre);
  constexpr Length earth = 6356766 * metre;
  const Length geopotential = altitude * (earth / (earth + altitude));
  constexpr double exponent = 9.80665 * 28.9644 / (8314.32 * 0.0065);  // g M/(R lapse) = 5.25588
  return AbsolutePressure::above_zero(101325 * std::pow(1 - 0.0065 * (geopotential / metre) / 288.15, exponent) *
                                      pascal);
}

AbsolutePressure saturated_vapour(Temperature temperature) {
  BW_EXPECT(temperature >= ice_point && temperature <= critical);
  const double t = (temperature - Temperature{}) / kelvin;
  const double theta = t + n[8] / (t - n[9]);
  const double a = theta * theta + n[0] * theta + n[1];
  const double b = n[2] * theta * theta + n[3] * theta + n[4];
  const double c = n[5] * theta * theta + n[6] * theta + n[7];
  return AbsolutePressure::above_zero(std::pow(2 * c / (-b + std::sqrt(b * b - 4 * a * c)), 4) * megapascal);
}

std::optional<Temperature> boiling_of_water(AbsolutePressure pressure) {
  BW_EXPECT(pressure <= critical_pressure);
  if (pressure < saturated_vapour(ice_point)) return std::nullopt;
  const double beta = std::pow((pressure - AbsolutePressure{}) / megapascal, 0.25);
  const double e = beta * beta + n[2] * beta + n[5];
  const double f = n[0] * beta * beta + n[3] * beta + n[6];
  const double g = n[1] * beta * beta + n[4] * beta + n[7];
  const double d = 2 * g / (-f - std::sqrt(f * f - 4 * e * g));
  const double sum = n[9] + d;
  return Temperature::above_zero((sum - std::sqrt(sum * sum - 4 * (n[8] + n[9] * d))) / 2 * kelvin);
}

}  // namespace blankwright
