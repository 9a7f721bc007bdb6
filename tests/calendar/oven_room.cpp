#include "oven_room.h"

#include <algorithm>
#include <map>

namespace calendar_rules {
namespace {

/// Whole tenths of a millimetre: sizes are told to a hundredth, and what just fits shall fit.
int tenths(double mm) { return static_cast<int>(mm * 10 + 0.4); }

/// Blanks that lie on one shelf.
class Shelf {
 public:
  Shelf(int section, int length) : section_{section}, length_{length} {}

  int most(int width, int depth) {
    if (std::max(width, depth) < length_ || std::min(width, depth) < section_) return 0;
    const auto found = known_.find({width, depth});
    if (found != known_.end()) return found->second;
    int best = 1;
    for (const int cut : cuts(width)) best = std::max(best, most(cut, depth) + most(width - cut, depth));
    for (const int cut : cuts(depth)) best = std::max(best, most(width, cut) + most(width, depth - cut));
    return known_[{width, depth}] = best;
  }

 private:
  /// Where a cut leaves no more waste than it must: after whole blanks, along or across.
  std::vector<int> cuts(int side) const {
    std::vector<int> all;
    for (int across = 0; across <= side; across += section_) {
      for (int along = across; along < side; along += length_) {
        if (along > 0 && along <= side / 2) all.push_back(along);
      }
    }
    std::ranges::sort(all);
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
  }

  int section_, length_;
  std::map<std::pair<int, int>, int> known_;
};

}  // namespace

int oven_room(const Oven& oven, double section_mm, double length_mm) {
  if (tenths(section_mm) + 2 * tenths(oven_clearance_mm) > tenths(oven.height_mm)) return 0;
  // Each blank with its gap to the next, on a shelf with one gap more.
  const int gap = tenths(oven_gap_mm);
  const auto inside = [&](int side_mm) { return tenths(side_mm) - 2 * tenths(oven_clearance_mm) + gap; };
  return oven.shelves *
         Shelf{tenths(section_mm) + gap, tenths(length_mm) + gap}.most(inside(oven.width_mm), inside(oven.depth_mm));
}

}  // namespace calendar_rules
