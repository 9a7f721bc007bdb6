#include "plan/tables/uptake.h"

#include <algorithm>
#include <array>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

/// Heartwood that is extremely difficult to impregnate (class 4 of EN 350:2016, or known to be alike), from memory;
/// by the species table's names.
constexpr std::array<std::string_view, 11> closed{
    "White oak",          // vessels plugged with tyloses: it makes tight casks
    "European oak",       // the same
    "American chestnut",  // tyloses
    "Sweet chestnut",     // tyloses
    "Black locust",       // tyloses, packed tight
    "Robinia",            // the same wood, grown in Europe
    "True mahogany",      // gum in the vessels
    "African mahogany",   // gum in the vessels
    "Afrormosia",         // dense, fine vessels, extractives
    "Macawood",           // dense, oily
    "Teak",               // oily, tyloses
};

}  // namespace

UsualFill usual_fill(WoodCondition condition, std::string_view species) {
  const bool plugged = std::ranges::find(closed, species) != closed.end();
  switch (condition) {
    case WoodCondition::sound:
      // A piece is seldom all sapwood. Vinyl polymers in sapwood of diffuse-porous woods: 30 to 120 % of the dry
      // mass.
      return plugged ? UsualFill{10 * percent, 40 * percent} : UsualFill{35 * percent, 80 * percent};
    case WoodCondition::spalted:
      // Fungi have opened pits and thinned walls, here and there.
      return plugged ? UsualFill{25 * percent, 90 * percent} : UsualFill{55 * percent, 90 * percent};
    case WoodCondition::punky:
      // Soft throughout: open throughout.
      return plugged ? UsualFill{30 * percent, 95 * percent} : UsualFill{60 * percent, 95 * percent};
    case WoodCondition::burl:
      // End grain on all faces, but dense figure among the eyes.
      return plugged ? UsualFill{10 * percent, 50 * percent} : UsualFill{45 * percent, 85 * percent};
  }
  BW_EXPECT(false);
  return {};
}

Share usual_loss(WoodCondition condition) {
  switch (condition) {
    case WoodCondition::spalted:
      return 15 * percent;
    case WoodCondition::punky:
      return 35 * percent;
    case WoodCondition::sound:
    case WoodCondition::burl:
      break;
  }
  return {};
}

}  // namespace blankwright
