#pragma once

#include <optional>

#include "plan/figure/worked.h"
#include "read/shop.h"

namespace blankwright {

struct Vacuum {
  AbsolutePressure atmosphere;  ///< at the shop's altitude
  AbsolutePressure target;
  Stress reading;                  ///< of a vacuum gauge: how far below the atmosphere, > 0
  AbsolutePressure pore_pressure;  ///< in the lowest blank, under the resin's head
  Duration pump_down;
  Share air_removed;                       ///< of the air in the pores
  std::optional<Temperature> water_boils;  ///< at the target; none where it boils even at 0 °C, below 611 Pa
  Duration hold;                           ///< planned, from target reached to release
  Duration least_soak;
};

struct VacuumInput {
  Given<Length> altitude;
  const VacuumFacts& facts;
  const PumpFacts& pump;
  Volume gas;         ///< to be pumped: the vessel's, hoses' and trap's, less resin and blanks; > 0
  Length resin_head;  ///< above the lowest blank's middle, >= 0
  Given<Density> resin_density;
};

/// The vacuum over the bath.
///
///   atmosphere  = 101325 (1 − 0.0065 H/288.15)^5.25588, H geopotential (US Standard Atmosphere 1976)
///   reading     = atmosphere − target; a target given as a reading is turned round
///   pore        = target + ρ g h
///   air removed = 1 − pore/atmosphere, not below 0     (Boyle, isothermal; what vapour is in the pores counts as
///   air:
///                                                      the cautious side)
///   pump-down   = (V/S) ln((p0 − pu)/(p − pu))         (resin and wood give off gas: it takes longer)
///   soak        = factor × hold, from target reached to release
///
/// The target lies above the pump's ultimate pressure and below the atmosphere: judge_vacuum() has refused any other
/// (BW_EXPECT). Boiling by IAPWS-IF97 region 4.
Worked<Vacuum> vacuum(const VacuumInput& in);

/// The pressure aimed at: the shop's target, or its reading taken off the atmosphere. A reading beyond the atmosphere
/// gives one below zero, which judge_vacuum() refuses.
AbsolutePressure vacuum_target(const VacuumFacts& facts, AbsolutePressure atmosphere);

}  // namespace blankwright
