#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

namespace blankwright {

/// The modules of a QR symbol, a word for each row and for each column; bit n is module n, set for black.
/// Up to version 11: `side` is at most 61.
struct ModuleGrid {
  static constexpr int most_side = 61;
  int side = 0;
  std::array<std::uint64_t, most_side> rows{};
  std::array<std::uint64_t, most_side> columns{};

  /// Flips every module that is black in `changes`, which has the same side.
  void flip(const ModuleGrid& changes);
};

/// The penalty by which the mask is chosen, over the whole symbol: ISO/IEC 18004, evaluation of data masking, with
/// the weights 3, 3, 40 and 10. Finder-like patterns (1:1:3:1:1) count at any scale, and what lies outside counts as
/// light.
long penalty_of(const ModuleGrid& grid);

}  // namespace blankwright
