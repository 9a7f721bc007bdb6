#pragma once

#include <span>

namespace blankwright {

/// Code points from `first` to `last`, both included.
struct CharacterRange {
  char32_t first, last;
};

/// The characters of fonts/characters.txt: those that both fonts have, ascending, without overlap.
std::span<const CharacterRange> supported_ranges();

/// May this character stand in an input, and can it be printed? No control character is, not even a newline.
bool is_supported(char32_t character);

}  // namespace blankwright
