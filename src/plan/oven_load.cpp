#include "plan/cure.h"

namespace blankwright {
namespace {

/// How many things of that size lie in a row, with a gap between two.
int how_many(Length room, Length thing, Length gap) {
  int n = 0;
  while (fits(room, (n + 1) * thing + n * gap)) ++n;
  return n;
}

}  // namespace

OvenLoad oven_load(const OvenFacts& oven, Length section, Length length) {
  OvenLoad load{.shelves = oven.shelves.value};
  const Length clearance = oven.clearance.value;
  if (!fits(oven.height.value, section + 2 * clearance)) return load;
  const Length width = oven.width.value - 2 * clearance;
  const Length depth = oven.depth.value - 2 * clearance;
  const Length gap = oven.gap.value;
  load.across = how_many(width, section, gap);
  load.along = how_many(depth, length, gap);
  OvenLoad turned = load;
  turned.turned = true;
  turned.across = how_many(depth, section, gap);
  turned.along = how_many(width, length, gap);
  return turned.capacity() > load.capacity() ? turned : load;
}

}  // namespace blankwright
