#pragma once

#include <array>

#include "measure/quantity.h"

namespace blankwright {

/// How high words stand: the nominal sizes of ISO 3098-1, and one below them for notes. Nothing is set in any other.
enum class Lettering {
  note,     ///< what is read once, captions
  hand,     ///< what is read with the sheet in the hand
  machine,  ///< what is read at saw, bath, oven and lathe
  figure,   ///< numbers that have to be hit, IDs
  large     ///< what is found from afar
};

/// Height of the capitals, before the template's lettering multiplies it.
constexpr Length nominal(Lettering lettering) {
  constexpr std::array heights{2.0, 2.5, 3.5, 5.0, 7.0};
  return heights.at(static_cast<std::size_t>(lettering)) * mm;
}

/// The next smaller one; none is smaller than a note's.
constexpr Lettering smaller(Lettering lettering) {
  return lettering == Lettering::note ? lettering : static_cast<Lettering>(static_cast<int>(lettering) - 1);
}

/// The largest one whose capitals are at most so high, or a note's.
constexpr Lettering lettering_within(Length capitals) {
  Lettering found = Lettering::large;
  while (found != Lettering::note && nominal(found) > capitals) found = smaller(found);
  return found;
}

}  // namespace blankwright
