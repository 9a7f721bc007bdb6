#include "measure/characters.h"

#include <algorithm>
#include <iterator>

#include "measure/character_ranges.h"

namespace blankwright {

std::span<const CharacterRange> supported_ranges() { return character_ranges; }

bool is_supported(char32_t character) {
  const auto after = std::ranges::upper_bound(character_ranges, character, {}, &CharacterRange::first);
  return after != std::begin(character_ranges) && character <= std::prev(after)->last;
}

}  // namespace blankwright
