#pragma once

#include <string_view>
#include <vector>

#include "entries/statistics.h"
#include "plan/figure/worked.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// What one nominal blank weighs and how much resin it takes. Its density is the one that the order gives; else that
/// of sound wood of its kind, and of spalted or punky wood less what is usually lost.
struct Uptake {
  Density dry_density;  ///< oven-dry mass on oven-dry volume
  Mass dry_mass;
  Volume dry_volume;
  Share void_share;
  Share punkiness;             ///< lighter than sound wood of its kind by; 0 where it is not
  Mass resin_limit;            ///< fills all of the void that the vacuum has emptied
  Mass resin_low, resin_high;  ///< expected
  Share fill;                  ///< least fill share f
  Mass least_wet, least_cured;
};

/// Least masses of a blank of that dry mass and volume: see uptake().
struct LadderRung {
  Mass dry, wet, cured;
};

struct UptakeInput {
  Length section, length;                  ///< oven-dry, > 0
  std::string_view species;                ///< as the table names it
  Density sound;                           ///< oven-dry density of sound wood of its kind
  std::optional<Given<Density>> measured;  ///< oven-dry density that the order gives instead
  Given<WoodCondition> condition;
  const ResinFacts& resin;
  const UptakeFacts& facts;
  Share air_removed;             ///< of the pores, by the vacuum
  std::optional<Spread> seen{};  ///< gain in mass of wood of this kind, as the shop's register has it
};

/// How much resin a blank takes, and what it weighs then at least.
///
///   void        = 1 − ρ_dry/ρ_cw,   ρ_cw 1530 kg/m³ (Siau)
///   limit       = V_dry · void · ρ_r · air removed
///   low, high   = V_dry · void · ρ_r · usual fill share, which is no more than the air removed; from eight blanks on
///                 m_dry · (mean gain ± 2 deviations) of wood of this kind, within what the void holds
///   f           = the shop's least fill, else the low one
///   least wet   = m_dry (1 − f ρ_r/ρ_cw) + f ρ_r V_dry
///   least cured = least wet less the bleed-out of what was taken up
///
/// ρ_r is the liquid's: curing shrinks the resin's volume and leaves its mass. Masses are on the oven-dry wood, so
/// that (wet − dry)/dry is the gain that the literature gives; wood weighed at some moisture would count its water.
/// Densities above 0 and below ρ_cw, air removed 0 to 1; otherwise BW_EXPECT. Usual fill shares and losses:
/// plan/tables/uptake.h, common practice, no source. What is measured goes before both.
Worked<Uptake> uptake(const UptakeInput& in);

/// Least masses of a blank of that dry mass, by the same formula. `volume` > 0, `fill` 0 to 1; otherwise BW_EXPECT.
LadderRung ladder_rung(Mass dry, Volume volume, Share fill, const ResinFacts& resin);

/// Rungs round the nominal dry mass, from wood far gone (−35 %) to denser than the table's mean (+25 %): rising, in
/// even round steps of grams or of tenths of an ounce, at most 15. What the weighing table shows.
std::vector<LadderRung> ladder(const Uptake& uptake, const ResinFacts& resin, UnitSystem units);

}  // namespace blankwright
