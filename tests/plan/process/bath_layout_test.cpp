#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "bath_cases.h"

using namespace blankwright;

namespace {

BathLayout layout(const VesselFacts& vessel, Length section, Length length, Stance stance, Length gap,
                  int layers = 1) {
  BathFacts facts;
  facts.gap = given(gap);
  return bath_layout(vessel, facts, section, length, stance, layers);
}

/// How near two blanks come to each other at worst, and a blank to the wall; by the corners alone.
struct Nearness {
  double blanks = 1e9, wall = 1e9;  ///< mm
};

Nearness nearness(const VesselFacts& vessel, const BathLayout& l) {
  Nearness n;
  const double w = l.cell_across / mm, d = l.cell_along / mm;
  for (std::size_t i = 0; i < l.cell_x.size(); ++i) {
    const double x = l.cell_x[i] / mm, y = l.cell_y[i] / mm;
    for (const double cx : {x - w / 2, x + w / 2}) {
      for (const double cy : {y - d / 2, y + d / 2}) {
        const double free =
            vessel.shape.value == VesselShape::round
                ? vessel.diameter->value / mm / 2 - std::hypot(cx, cy)
                : std::min(vessel.width->value / mm / 2 - std::abs(cx), vessel.depth->value / mm / 2 - std::abs(cy));
        n.wall = std::min(n.wall, free);
      }
    }
    for (std::size_t j = 0; j < i; ++j) {
      const double apart = std::max(std::abs(x - l.cell_x[j] / mm) - w, std::abs(y - l.cell_y[j] / mm) - d);
      n.blanks = std::min(n.blanks, apart);
    }
  }
  return n;
}

}  // namespace

TEST_CASE("square blanks stand in a round vessel as closely as the published packings of squares in a circle") {
  // Radius of the smallest circle round n unit squares: Friedman, "Squares in circles" (from memory), and by hand:
  // √2/2, √5/2, 5 √17/16, √2, √10/2, √13/2. For six, 1.688, the squares would have to be turned.
  struct Row {
    int count;
    double radius;
  };
  const Row published[] = {{1, std::sqrt(2) / 2}, {2, std::sqrt(5) / 2},  {3, 5 * std::sqrt(17) / 16},
                           {4, std::sqrt(2)},     {5, std::sqrt(10) / 2}, {7, std::sqrt(13) / 2}};
  const Length side = 40 * mm;
  for (const Row& row : published) {
    CAPTURE(row.count);
    const Length diameter = 2 * row.radius * side;
    const auto places = [&](Length d) {
      return layout(pot(d, 400 * mm), side, 150 * mm, Stance::standing, 0 * mm).in_layer;
    };
    CHECK(places(diameter + 0.001 * mm) == row.count);
    CHECK(places(diameter - 0.05 * mm) < row.count);  // nobody packs them closer
  }
}

TEST_CASE("a gap between blanks and to the wall is as good as blanks larger by it in a vessel smaller by it") {
  // By hand, four squares of 38 mm with 5 mm between them and to the wall: √2 (38 + 2.5) + 5 = 62.3 mm of radius.
  const double radius = std::sqrt(2) * (38 + 2.5) + 5;
  const auto places = [&](double r) {
    return layout(pot(2 * r * mm, 400 * mm), 38 * mm, 150 * mm, Stance::standing, 5 * mm).in_layer;
  };
  CHECK(places(radius + 0.001) == 4);
  CHECK(places(radius - 0.01) == 3);
}

TEST_CASE("blanks in a rectangular vessel stand in a grid, and lie the way round that takes more") {
  // By hand: 3 × 45 + 2 × 5 + 2 × 5 = 155 across, 5 × 45 + 4 × 5 + 10 = 255 along.
  const VesselFacts vessel = trough(155 * mm, 255 * mm, 300 * mm);
  const BathLayout standing = layout(vessel, 45 * mm, 150 * mm, Stance::standing, 5 * mm);
  CHECK(standing.in_layer == 15);
  CHECK(layout(trough(154.9 * mm, 255 * mm, 300 * mm), 45 * mm, 150 * mm, Stance::standing, 5 * mm).in_layer == 10);
  // 145 mm long: across the vessel they lie one beside five; along it three beside one.
  const BathLayout lying = layout(vessel, 45 * mm, 145 * mm, Stance::lying, 5 * mm);
  CHECK(lying.in_layer == 5);
  CHECK(lying.cell_across / mm == doctest::Approx(145));
  CHECK(lying.cell_along / mm == doctest::Approx(45));
  CHECK(lying.top / mm == doctest::Approx(45));
  CHECK(standing.top / mm == doctest::Approx(150));
}

TEST_CASE("layers touch, and stand no higher than resin may with its cover") {
  VesselFacts vessel = pot(140 * mm, 400 * mm);
  vessel.usable_height.reset();  // half the height: 200 mm
  CHECK(usable_height(vessel) / mm == doctest::Approx(200));
  // 25 mm of cover leave 175 mm.
  CHECK(layout(vessel, 40 * mm, 87.5 * mm, Stance::standing, 5 * mm, 2).capacity() == 8);
  CHECK(layout(vessel, 40 * mm, 87.5 * mm, Stance::standing, 5 * mm, 2).top / mm == doctest::Approx(175));
  CHECK(layout(vessel, 40 * mm, 87.6 * mm, Stance::standing, 5 * mm, 2).capacity() == 0);
  CHECK(layout(vessel, 40 * mm, 87.6 * mm, Stance::standing, 5 * mm, 1).capacity() == 4);
}

TEST_CASE("no two blanks and no blank and the wall come closer than the gap") {
  RandomNumbers random{31};
  int many = 0;
  for (int trial = 0; trial < 4000; ++trial) {
    CAPTURE(trial);
    const BathCase c = random_bath(random);
    const BathBlanks& b = c.blanks.front();
    const Stance stance = random.yes() ? Stance::standing : Stance::lying;
    const BathLayout l = bath_layout(c.vessel, c.facts, b.section, b.length, stance, random.whole(1, 3));
    CHECK(l.cell_x.size() == static_cast<std::size_t>(l.in_layer));
    CHECK(l.cell_y.size() == l.cell_x.size());
    if (l.in_layer == 0) continue;
    many += l.in_layer > 3 ? 1 : 0;
    const double gap = c.facts.gap.value / mm;
    const Nearness n = nearness(c.vessel, l);
    CHECK(n.wall >= gap - 0.001);
    CHECK(n.blanks >= gap - 0.001);
    CHECK(l.cell_across * l.cell_along / mm2 ==
          doctest::Approx((stance == Stance::standing ? b.section : b.length) * b.section / mm2));
  }
  CHECK(many > 800);
}

TEST_CASE("a wider vessel never has fewer places, and none lies outside what area allows") {
  RandomNumbers random{32};
  for (int trial = 0; trial < 1500; ++trial) {
    CAPTURE(trial);
    const Length section = random.between(15, 60) * mm;
    const Length gap = random.between(0, 10) * mm;
    const Stance stance = random.yes() ? Stance::standing : Stance::lying;
    const Length length = random.between(15, 150) * mm;
    const Length diameter = random.between(40, 400) * mm;
    const auto places = [&](Length d) { return layout(pot(d, 400 * mm), section, length, stance, gap).in_layer; };
    CHECK(places(diameter + random.between(0, 20) * mm) >= places(diameter));
    const Area cell = (stance == Stance::standing ? section : length) * section;
    CHECK(places(diameter) * (cell / mm2) <= 3.1416 / 4 * (diameter * diameter / mm2));
    // A square grid centred on a corner, counted by itself.
    if (stance == Stance::lying) continue;
    int grid = 0;
    const double pitch = (section + gap) / mm, half = section / mm / 2, reach = (diameter / 2 - gap) / mm;
    for (int i = -30; i < 30; ++i) {
      for (int j = -30; j < 30; ++j) {
        const double x = std::abs((i + 0.5) * pitch) + half, y = std::abs((j + 0.5) * pitch) + half;
        grid += std::hypot(x, y) <= reach ? 1 : 0;
      }
    }
    CHECK(places(diameter) >= grid);
  }
}

TEST_CASE("no place of the rows in a round vessel holds more blanks, and a smaller gap never holds fewer") {
  // Rows moved by a four-thousandth of their pitch at a time, counted by the chord at their farther edge.
  RandomNumbers random{33};
  for (int trial = 0; trial < 200; ++trial) {
    const double across = random.between(15, 60), along = random.yes() ? across : random.between(40, 200);
    const double gap = random.between(0, 10), diameter = random.between(100, 320);
    CAPTURE(across);
    CAPTURE(along);
    CAPTURE(gap);
    CAPTURE(diameter);
    const double reach = diameter / 2 - gap, pitch = along + gap;
    int most = 0;
    for (int step = 0; step < 4000; ++step) {
      int count = 0;
      for (int row = -25; row <= 25; ++row) {
        const double edge = std::abs((row + step / 4000.0) * pitch) + along / 2;
        if (edge >= reach) continue;
        count += static_cast<int>((2 * std::sqrt(reach * reach - edge * edge) + gap) / (across + gap));
      }
      most = std::max(most, count);
    }
    const auto places = [&](double g) {
      return layout(pot(diameter * mm, 400 * mm), across * mm, along * mm,
                    across == along ? Stance::standing : Stance::lying, g * mm)
          .in_layer;
    };
    CHECK(places(gap) >= most);
    CHECK(places(0.99 * gap) >= places(gap));
  }
}
