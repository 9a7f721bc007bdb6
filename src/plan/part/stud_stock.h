#pragma once

#include <span>
#include <vector>

#include "read/shop.h"

namespace blankwright {

/// Do the two screw into one nut? Tolerance and spelling have no say.
bool is_same_thread(const Thread& a, const Thread& b);

/// Studs alike that are to be cut.
struct StudsWanted {
  Thread thread;
  Length length;
  int count = 0;
};

/// How many of each the stock gives when all are cut from it, a saw's kerf between those of one rod: the longest
/// first, each from the shortest piece that is long enough, which leaves long pieces to long studs.
std::vector<int> studs_from_stock(std::span<const StudsWanted> wanted, std::span<const StudStock> stock, Length kerf);

}  // namespace blankwright
