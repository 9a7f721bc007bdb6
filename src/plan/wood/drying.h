#pragma once

#include <optional>

#include "plan/figure/worked.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// How a blank is dried before the bath.
struct Drying {
  Share start_moisture;
  Temperature oven;
  Duration least;                  ///< in the oven, by thickness; then the two weighings decide
  Duration cool;                   ///< sealed
  Share room_moisture;             ///< to which dry wood goes back in the room
  std::optional<Duration> regain;  ///< in the open room until 1 % of moisture is back; never, where the air is so dry
  bool air_dry_first = false;      ///< wetter than the shop puts into the oven
};

struct DryingInput {
  Length section;  ///< when it goes into the oven, > 0
  Given<Share> moisture;
  const DryingFacts& facts;
};

/// Time in the oven by the shop's table, or by the usual one (common practice, no source): that of the first row that
/// is as thick as the section; beyond the last row in proportion to the square of the thickness, as diffusion goes.
/// The shop's holds for its oven; the usual one for 103 °C, and in a cooler oven the time is longer by
/// moisture_slower(). The table rises, which drying_times_rise() has seen to.
///
///   room moisture = EMC at the room's temperature and humidity        (Wood Handbook eq. 4-5)
///   regain        = 0.314 (1 %/room moisture)² × slower in the room × time by the square of the thickness
///
/// The regain is an estimate by diffusion through the four long faces (Crank 1975), on the early side: a section of
/// side a has taken up 8 √(D t/π)/a of what it will, and 3 % of its moisture was left when the oven's time was over,
/// so that D × that time = 0.156 a²; 0.314 = π/(64 · 0.156).
Worked<Drying> drying(const DryingInput& in);

}  // namespace blankwright
