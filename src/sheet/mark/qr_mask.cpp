#include "sheet/mark/qr_mask.h"

#include <bit>
#include <cstdlib>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

/// Words with the lowest `count` bits set; `count` is at most 63.
constexpr std::uint64_t low_bits(int count) { return (std::uint64_t{1} << count) - 1; }

/// Bit n is set where modules n and n + 1 are alike.
std::uint64_t alike_neighbours(std::uint64_t line, int side) { return ~(line ^ (line >> 1)) & low_bits(side - 1); }

/// Runs of five or more alike: 3 for five, 1 more for each further module.
long run_penalty(std::uint64_t line, int side) {
  const std::uint64_t alike = alike_neighbours(line, side);
  const std::uint64_t fives = alike & (alike >> 1) & (alike >> 2) & (alike >> 3);
  if (fives == 0) return 0;
  const std::uint64_t first_fives = fives & ~(fives << 1);
  return std::popcount(fives) + 2 * std::popcount(first_fives);
}

/// How many light modules lie before the edge at bit `at`; a whole line of them when the border is reached.
int light_before(std::uint64_t edges, int at, int side) {
  const std::uint64_t below = edges & low_bits(at);
  return below == 0 ? side : at - (63 - std::countl_zero(below));
}

int light_after(std::uint64_t edges, int at, int side) {
  const std::uint64_t above = at >= 63 ? 0 : edges >> (at + 1);
  return above == 0 ? side : 1 + std::countr_zero(above);
}

/// Finder-like patterns: dark, light, dark, light, dark in 1:1:3:1:1, with four light on one side and one on the
/// other.
long finder_penalty(std::uint64_t line, int side) {
  const std::uint64_t edges = line ^ (line << 1);  // bit n: module n differs from the one before it
  const std::uint64_t threes = line & (line >> 1) & (line >> 2);
  long found = 0;
  // Bars of 3 × unit dark modules: mostly there are none, and then none of a larger unit either.
  std::uint64_t bars = threes;
  for (int unit = 1; 7 * unit <= side && bars != 0; ++unit) {
    std::uint64_t starts = line & edges & (edges >> unit) & (edges >> 2 * unit) & (edges >> 5 * unit) &
                           (edges >> 6 * unit) & (edges >> 7 * unit);
    for (; starts != 0; starts &= starts - 1) {
      const int start = std::countr_zero(starts);
      if (std::popcount((edges >> start) & low_bits(7 * unit + 1)) != 6) continue;
      const int before = light_before(edges, start, side);
      const int after = light_after(edges, start + 7 * unit, side);
      found += before >= 4 * unit && after >= unit ? 1 : 0;
      found += after >= 4 * unit && before >= unit ? 1 : 0;
    }
    bars &= threes >> 3 * unit;
  }
  return 40 * found;
}

}  // namespace

void ModuleGrid::flip(const ModuleGrid& changes) {
  BW_EXPECT(side == changes.side);
  for (std::size_t n = 0; n < static_cast<std::size_t>(side); ++n) {
    rows[n] ^= changes.rows[n];
    columns[n] ^= changes.columns[n];
  }
}

long penalty_of(const ModuleGrid& grid) {
  const int side = grid.side;
  BW_EXPECT(side >= 21 && side <= ModuleGrid::most_side);
  long penalty = 0;
  long dark = 0;
  for (std::size_t n = 0; n < static_cast<std::size_t>(side); ++n) {
    penalty += run_penalty(grid.rows[n], side) + finder_penalty(grid.rows[n], side);
    penalty += run_penalty(grid.columns[n], side) + finder_penalty(grid.columns[n], side);
    dark += std::popcount(grid.rows[n]);
    if (n == 0) continue;
    const std::uint64_t blocks = alike_neighbours(grid.rows[n], side) & alike_neighbours(grid.rows[n - 1], side) &
                                 ~(grid.rows[n] ^ grid.rows[n - 1]);
    penalty += 3 * std::popcount(blocks);
  }
  // 10 for every 5 % that the dark share is away from 50 %, the first 5 % being free.
  const long total = static_cast<long>(side) * side;
  const long steps = (std::labs(20 * dark - 10 * total) + total - 1) / total - 1;
  return penalty + 10 * steps;
}

}  // namespace blankwright
