#pragma once

#include "measure/quantity.h"

namespace blankwright {

/// Moisture at which wood comes to rest in air of that temperature and relative humidity, as a share of its dry mass:
///   EMC = (1800/W) [ K h/(1 − K h) + (K1 K h + 2 K1 K2 K² h²)/(1 + K1 K h + K1 K2 K² h²) ]
/// with W, K, K1, K2 by the temperature in °C. Fitted for −1.1 to 132 °C and a humidity of 5 to 95 %, and smooth
/// beyond; midway between wood that dries and wood that takes up. Humidity 0 to 100 %; otherwise BW_EXPECT.
/// Source: Wood Handbook (FPL-GTR-282) eq. 4-5.
Share equilibrium_moisture(Temperature air, Share humidity);

/// How many times slower moisture moves in dry wood at one temperature than at another:
///   exp( E/R (1/slow − 1/fast) ),  E = 35 kJ/mol,  R = 8.314 J/(mol K)
/// Source: Siau 1984, bound water, 38.5 − 0.29 x kJ/mol at a moisture of x %, from memory; taken at about 12 %.
double moisture_slower(Temperature slow, Temperature fast);

}  // namespace blankwright
