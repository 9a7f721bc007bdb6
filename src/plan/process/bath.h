#pragma once

#include <optional>
#include <vector>

#include "plan/figure/worked.h"
#include "read/shop.h"

namespace blankwright {

/// Blanks alike in size that go into a bath together.
struct BathBlanks {
  int count = 0;
  Length section, length;      ///< oven-dry
  Mass dry_mass;               ///< of one
  Mass resin_low, resin_high;  ///< taken up by one
};

enum class Stance { standing, lying };

/// Blanks are not stacked in more layers than that in a bath; common practice, no source.
inline constexpr int most_layers = 4;

/// How blanks stand or lie in a vessel: in equal cells that take the largest of them. Layers are filled from the
/// bottom, each from the first place on.
struct BathLayout {
  Stance stance = Stance::standing;
  int layers = 1;
  int in_layer = 0;                    ///< places in one layer
  Length cell_across, cell_along;      ///< of a place seen from above, in x and in y, without the gap
  Length top;                          ///< of the uppermost blanks, from the inside bottom
  std::vector<Length> cell_x, cell_y;  ///< of the places of one layer, their middles, from the vessel's middle
  int capacity() const { return layers * in_layer; }
};

/// One filling of a vessel.
struct Bath {
  const VesselFacts* vessel = nullptr;
  const ResinFacts* resin = nullptr;
  BathLayout layout;
  Area free_area;                    ///< of the surface: the vessel's less what pierces it
  Volume pour;                       ///< resin at the start
  Volume fresh, reused;              ///< of it
  Mass activator;                    ///< on the fresh resin only
  Length start_height, end_height;   ///< level, from the inside bottom
  Length headspace;                  ///< from the level at the start to the rim
  Mass ballast;                      ///< on the blanks
  Volume filler;                     ///< solid volume of the filler that finds room under the tops, beside the blanks
  Volume taken_up, film, left_over;  ///< pour = taken up at most + film + left over
};

/// How high resin may stand at the start: what the shop says of the vessel, else half its height. The rest is for
/// foam; common practice, no source.
Length usable_height(const VesselFacts& vessel);

/// Gas over resin that stands at that height: in the vessel up to its rim, and in lid, hose and trap. A rod in it is
/// not taken off; the pump has no less to do.
Volume gas_above(const VesselFacts& vessel, Length level);

/// Resin that stays on a drained blank, on all six faces: film · (2 section² + 4 section · length).
Volume film_on(const ResinFacts& resin, Length section, Length length);

/// The places that a vessel has for the largest of these blanks in so many layers, with the gap between them and to
/// the wall. No places (capacity 0) where not one fits, or where layers and cover stand higher than usable_height().
///
/// Layers touch: nothing lies between them, and blanks that stand on each other still draw through sides and through
/// the end grain that is open. Round vessel: rows across it, each with as many as the chord at its farther edge holds
/// and centred by itself; of all places that the rows can have, and of both ways in which a lying blank can be
/// turned, one that holds the most. Not always the most that could be packed without rows. Rectangular vessel: a
/// grid, the better way round. Sizes > 0, layers >= 1 and a vessel that vessels_make_sense() has passed; otherwise
/// BW_EXPECT. Source: geometry.
BathLayout bath_layout(const VesselFacts& vessel, const BathFacts& facts, Length section, Length length,
                       Stance stance, int layers);

struct BathInput {
  const VesselFacts& vessel;
  const BathFacts& facts;
  const ResinFacts& resin;
  std::vector<BathBlanks> blanks;  ///< all of them, at least one
  Volume on_hand;                  ///< activated resin of this kind and dye
};

/// The filling that takes the least resin: standing or lying, in as few layers as need be (a further one takes more
/// resin in any case) and at most `most_layers`, within the usable height. None where the blanks do not all go in, or
/// their tops could not be kept covered within it.
///
///   ballast      = Σ (ρ_r V − m_dry) / (1 − ρ_r/ρ_b) · (1 + reserve)       over the blanks that float, oven-dry
///   end level    = top of the blanks + cover, or + thickness of the ballast on them where that is more
///   start level  = end level + (taken up + film)/free area, at most the usable height
///   pour         = free area · end level + rod · top − blanks − ballast/ρ_b − filler + taken up + film
///   pour         = taken up + film + left over;  fresh = pour − on hand;  activator on the fresh resin alone
///
/// The end is meant with every blank at its greatest uptake and the film gone too; at any smaller uptake the level is
/// higher, at none it is the start's. Blanks keep their outside volume when they fill. Oven-dry is when they float
/// most, and vacuum changes nothing of it (Archimedes). The rod ends on the tops: below them it displaces nothing.
/// Ballast lies evenly on the top layer. Of the filler no more counts than finds room beside the blanks below their
/// tops, loosely poured: all solids that are counted lie under the level.
///
/// Counts >= 1, sizes, densities > 0, masses >= 0, and ballast heavier than the resin; otherwise BW_EXPECT.
std::optional<Worked<Bath>> bath(const BathInput& in);

/// How many such blanks one filling takes at most, with the tops kept covered; 0 where none does. What fits is
/// monotone: fewer blanks take fewer layers and less resin, so that the level starts no higher.
int bath_capacity(const VesselFacts& vessel, const BathFacts& facts, const ResinFacts& resin, const BathBlanks& one);

}  // namespace blankwright
