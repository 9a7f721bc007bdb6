#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "plan/process/cure.h"
#include "planning.h"
#include "random_numbers.h"

using namespace blankwright;

namespace {

OvenFacts oven(double width, double depth, double height, double clearance, double gap, int shelves = 1) {
  OvenFacts o;
  o.width = given(width * mm);
  o.depth = given(depth * mm);
  o.height = given(height * mm);
  o.clearance = given(clearance * mm);
  o.gap = given(gap * mm);
  o.shelves = given(shelves);
  return o;
}

struct Lying {
  double x, y, wide, deep;
};

/// The blanks of a shelf where they lie, mm from its left front corner.
std::vector<Lying> laid_out(const OvenLoad& load, double section, double length) {
  std::vector<Lying> out;
  for (const TrayPlace& place : load.places) {
    out.push_back({place.x / mm, place.y / mm, place.turned ? length : section, place.turned ? section : length});
  }
  return out;
}

/// Every pair of blanks and every blank and the walls.
bool keep_clear(const OvenFacts& o, const std::vector<Lying>& blanks) {
  const double clearance = o.clearance.value / mm - 1e-3, gap = o.gap.value / mm - 1e-3;
  bool clear = true;
  for (std::size_t i = 0; i < blanks.size(); ++i) {
    const Lying& a = blanks[i];
    clear = clear && a.x >= clearance && a.x + a.wide <= o.width.value / mm - clearance;
    clear = clear && a.y >= clearance && a.y + a.deep <= o.depth.value / mm - clearance;
    for (std::size_t j = 0; j < i; ++j) {
      const Lying& b = blanks[j];
      const double between_x = std::max(a.x - (b.x + b.wide), b.x - (a.x + a.wide));
      const double between_y = std::max(a.y - (b.y + b.deep), b.y - (a.y + a.deep));
      clear = clear && std::max(between_x, between_y) >= gap;
    }
  }
  return clear;
}

/// How many lie on a shelf, by setting one after the other down in whole millimetres, one way and the other.
int by_setting_down(int width, int depth, int clearance, int gap, int section, int length) {
  const auto rows = [&](int room, int thing) {
    int count = 0;
    for (int at = clearance; at + thing <= room - clearance; at += thing + gap) ++count;
    return count;
  };
  return std::max(rows(width, section) * rows(depth, length), rows(depth, section) * rows(width, length));
}

/// The most rectangles that straight cuts through and through part from a larger one, whichever way each lies: every
/// cut at every whole number, and again in both parts. Sizes in any unit in which they are whole.
class EveryCut {
 public:
  EveryCut(int width, int depth, int section, int length)
      : depth_{depth}, most_(static_cast<std::size_t>((width + 1) * (depth + 1))) {
    for (int w = 1; w <= width; ++w) {
      for (int d = 1; d <= depth; ++d) {
        const bool one = (w >= section && d >= length) || (w >= length && d >= section);
        int best = one ? 1 : 0;
        for (int cut = 1; cut <= w / 2; ++cut) best = std::max(best, most(cut, d) + most(w - cut, d));
        for (int cut = 1; cut <= d / 2; ++cut) best = std::max(best, most(w, cut) + most(w, d - cut));
        most_[index(w, d)] = best;
      }
    }
  }
  int most(int width, int depth) const { return most_[index(width, depth)]; }

 private:
  std::size_t index(int w, int d) const { return static_cast<std::size_t>(w * (depth_ + 1) + d); }
  int depth_;
  std::vector<int> most_;
};

}  // namespace

TEST_CASE("an oven worked out by hand takes so many blanks, on every shelf") {
  // 400 × 350 less 40 all round: 320 × 270. Blanks of 38 × 150 with 15 between: across 38 + 5 · 53 = 303, 6; along
  // 150 + 165 = 315 > 270, 1. Turned: across the depth 38 + 4 · 53 = 250, 5; along the width 315, 2.
  const OvenLoad load = oven_load(oven(400, 350, 300, 40, 15, 2), 38 * mm, 150 * mm);
  CHECK(load.on_shelf() == 10);
  CHECK(std::ranges::all_of(load.places, &TrayPlace::turned));
  CHECK(load.shelves == 2);
  CHECK(load.capacity() == 20);
}

TEST_CASE("a strip of turned blanks beside the others is used where it takes more") {
  // 350 × 470 less 40 all round: 270 × 390. Blanks of 40 × 150, 10 between. One way 5 × 2 = 10, the other 1 × 8 = 8.
  // Eight turned ones behind each other, 40 + 7 · 50 = 390 deep, are 150 wide; beside them 270 − 160 = 110 are left:
  // two columns (90) of two (310). 12 in all.
  const OvenLoad load = oven_load(oven(350, 470, 300, 40, 10), 40 * mm, 150 * mm);
  CHECK(load.capacity() == 12);
  CHECK(std::ranges::count(load.places, true, &TrayPlace::turned) == 8);
}

TEST_CASE("no straight cuts part more blanks from a shelf than lie on it") {
  RandomNumbers random{4};
  int mixed = 0;
  for (int trial = 0; trial < 250; ++trial) {
    CAPTURE(trial);
    const int step = 5;  // all sizes in steps of 5 mm, so that cuts at every step are all there are
    const auto steps = [&](double low, double high) {
      return random.whole(static_cast<int>(low / step), static_cast<int>(high / step));
    };
    const int width = steps(150, 500), depth = steps(150, 400), gap = steps(5, 30);
    const int section = steps(25, 70), length = steps(75, 250);
    const OvenFacts o = oven((width + 16) * step, (depth + 16) * step, 300, 8 * step, gap * step);
    const OvenLoad load = oven_load(o, section * step * mm, length * step * mm);
    CHECK(load.capacity() ==
          EveryCut{width + gap, depth + gap, section + gap, length + gap}.most(width + gap, depth + gap));
    const auto turned = std::ranges::count(load.places, true, &TrayPlace::turned);
    mixed += turned > 0 && turned < load.capacity() ? 1 : 0;
  }
  CHECK(mixed > 60);
}

TEST_CASE("blanks in an oven overlap neither each other nor what has to stay free") {
  RandomNumbers random{3};
  for (int trial = 0; trial < 3000; ++trial) {
    CAPTURE(trial);
    const auto whole_mm = [&](double low, double high) { return static_cast<int>(random.between(low, high)); };
    const int width = whole_mm(100, 700);
    const int depth = whole_mm(100, 700);
    const int height = whole_mm(50, 400);
    const int clearance = whole_mm(0, 60);
    const int gap = whole_mm(0, 30);
    const int section = whole_mm(15, 90);
    const int length = whole_mm(40, 350);
    const OvenFacts o = oven(width, depth, height, clearance, gap);
    const OvenLoad load = oven_load(o, section * mm, length * mm);

    const bool low_enough = section + 2 * clearance <= height;
    if (low_enough) CHECK(load.capacity() >= by_setting_down(width, depth, clearance, gap, section, length));
    if (!low_enough) CHECK(load.capacity() == 0);

    const double free_width = width - 2.0 * clearance + gap;
    const double free_depth = depth - 2.0 * clearance + gap;
    CHECK(load.capacity() <=
          std::max(0.0, free_width) * std::max(0.0, free_depth) / ((section + gap) * (length + gap)) + 1e-6);
    CHECK(keep_clear(o, laid_out(load, section, length)));
  }
}

TEST_CASE("a blank that just fits with its clearance lies in the oven, one a hair larger does not") {
  const OvenFacts o = oven(118, 230, 118, 40, 15);
  CHECK(oven_load(o, 38 * mm, 150 * mm).capacity() == 1);
  CHECK(oven_load(o, 38.01 * mm, 150 * mm).capacity() == 0);
  CHECK(oven_load(o, 38 * mm, 150.01 * mm).capacity() == 0);
  CHECK(oven_load(oven(118, 230, 117, 40, 15), 38 * mm, 150 * mm).capacity() == 0);
  CHECK(oven_load(oven(118, 230, 118, 60, 15), 38 * mm, 150 * mm).capacity() == 0);
  // Sizes in inches come out as they are: 1.5 in within 4.5 in with 1.5 in all round.
  OvenFacts inches = oven(1, 1, 1, 1, 1);
  inches.width = inches.height = given(4.5 * inch);
  inches.depth = given(9 * inch);
  inches.clearance = given(1.5 * inch);
  CHECK(oven_load(inches, 1.5 * inch, 6 * inch).capacity() == 1);
}
