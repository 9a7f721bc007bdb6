#pragma once

namespace blankwright {

/// How much of a space loosely poured pieces fill: random loose packing of equal spheres, 0.60. Source: Scott, Nature
/// 188 (1960) 908, from memory. Broken and unequal pieces may lie closer: no more is counted on.
inline constexpr double loose_packing = 0.60;

}  // namespace blankwright
