#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "plan/cure.h"
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
std::vector<Lying> laid_out(const OvenFacts& o, const OvenLoad& load, double section, double length) {
  const double clearance = o.clearance.value / mm;
  const double gap = o.gap.value / mm;
  std::vector<Lying> out;
  for (int i = 0; i < load.across; ++i) {
    for (int j = 0; j < load.along; ++j) {
      const double side = clearance + i * (section + gap);
      const double end = clearance + j * (length + gap);
      out.push_back(load.turned ? Lying{end, side, length, section} : Lying{side, end, section, length});
    }
  }
  return out;
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

}  // namespace

TEST_CASE("an oven worked out by hand takes so many blanks, on every shelf") {
  // 400 × 350 less 40 all round: 320 × 270. Blanks of 38 × 150 with 15 between: across 38 + 5 · 53 = 303, 6; along
  // 150 + 165 = 315 > 270, 1. Turned: across the depth 38 + 4 · 53 = 250, 5; along the width 315, 2.
  const OvenLoad load = oven_load(oven(400, 350, 300, 40, 15, 2), 38 * mm, 150 * mm);
  CHECK(load.turned);
  CHECK(load.across == 5);
  CHECK(load.along == 2);
  CHECK(load.shelves == 2);
  CHECK(load.capacity() == 20);
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
    const int most = low_enough ? by_setting_down(width, depth, clearance, gap, section, length) : 0;
    CHECK(load.capacity() == most);

    const double free_width = width - 2.0 * clearance + gap;
    const double free_depth = depth - 2.0 * clearance + gap;
    CHECK(load.capacity() <=
          std::max(0.0, free_width) * std::max(0.0, free_depth) / ((section + gap) * (length + gap)));

    const std::vector<Lying> blanks = laid_out(o, load, section, length);
    CHECK(static_cast<int>(blanks.size()) == load.capacity());
    bool clear = true;
    for (std::size_t i = 0; i < blanks.size(); ++i) {
      const Lying& a = blanks[i];
      clear = clear && a.x >= clearance && a.x + a.wide <= width - clearance;
      clear = clear && a.y >= clearance && a.y + a.deep <= depth - clearance;
      for (std::size_t j = 0; j < i; ++j) {
        const Lying& b = blanks[j];
        const double between_x = std::max(a.x - (b.x + b.wide), b.x - (a.x + a.wide));
        const double between_y = std::max(a.y - (b.y + b.deep), b.y - (a.y + a.deep));
        clear = clear && std::max(between_x, between_y) >= gap - 1e-9;
      }
    }
    CHECK(clear);
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
