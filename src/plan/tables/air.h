#pragma once

#include <optional>

#include "measure/quantity.h"

namespace blankwright {

/// Pressure of the air at an altitude on the standard day:
///   p = 101325 Pa (1 − 0.0065 H/288.15)^5.25588,  H = r Z/(r + Z), r = 6356766 m
/// with H the geopotential and Z the geometric altitude. −1000 m to 11000 m; otherwise BW_EXPECT. The weather moves
/// it by 3 % either way; a weather report's pressure is reduced to sea level and is not it.
/// Source: US Standard Atmosphere 1976 (ISO 2533 is equal here).
AbsolutePressure standard_atmosphere(Length altitude);

/// Pressure of saturated water vapour. 0 °C to 373.946 °C (the critical point); otherwise BW_EXPECT.
/// Source: IAPWS-IF97, R7-97(2012), region 4, eq. 30.
AbsolutePressure saturated_vapour(Temperature temperature);

/// Temperature at which free water boils under that pressure: the inverse of saturated_vapour(). None below 611.2 Pa,
/// where water boils at 0 °C and freezes. Up to 22.064 MPa; beyond it BW_EXPECT.
/// Source: IAPWS-IF97, R7-97(2012), region 4, eq. 31.
std::optional<Temperature> boiling_of_water(AbsolutePressure pressure);

}  // namespace blankwright
