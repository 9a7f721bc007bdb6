#include "sheet/mark/draughting.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "test_dossier.h"

using namespace blankwright;

TEST_CASE("an arrowhead is filled, 3.5 mm long and 0.92 mm wide") {
  // 15° included: 2 × 3.5 × tan 7.5° = 0.9216 mm (ISO 129-1: 15° to 90°; the size is common practice).
  Page page;
  Canvas canvas{page, fonts_for_test()};
  arrow(canvas, {10 * mm, 10 * mm}, {0 * mm, 10 * mm});
  REQUIRE(page.items.size() == 1);
  const auto& fill = std::get<Fill>(page.items.front().mark);
  const Path& p = fill.paths.front();
  REQUIRE(p.size() == 3);
  CHECK(p[0] == Spot{10 * mm, 10 * mm});
  CHECK(std::abs((p[0].x - p[1].x) / mm - 3.5) < 0.005);
  CHECK(std::abs(abs(p[1].y - p[2].y) / mm - 0.92) < 0.005);
}

TEST_CASE("hatching runs under 45 degrees inside the wood and leaves bore and text free") {
  const Path outline{{0 * mm, 0 * mm}, {40 * mm, 0 * mm}, {40 * mm, 20 * mm}, {0 * mm, 20 * mm}};
  const Box hole{10 * mm, 5 * mm, 12 * mm, 8 * mm};
  const std::vector<Path> holes{
      {{hole.x, hole.y}, {hole.right(), hole.y}, {hole.right(), hole.bottom()}, {hole.x, hole.bottom()}}};
  const auto lines = hatching(outline, holes, 2.5 * mm);
  double total = 0;
  for (const Path& line : lines) {
    REQUIRE(line.size() == 2);
    CHECK(std::abs((line[1].x - line[0].x) / mm + (line[1].y - line[0].y) / mm) < 1e-9);
    const Spot middle{(line[0].x + line[1].x) / 2, (line[0].y + line[1].y) / 2};
    CHECK((middle.x > 0 * mm && middle.x < 40 * mm && middle.y > 0 * mm && middle.y < 20 * mm));
    CHECK(!(middle.x > hole.x && middle.x < hole.right() && middle.y > hole.y && middle.y < hole.bottom()));
    total += (line[1].x - line[0].x) / mm * std::sqrt(2.0);
  }
  // Lines 2.5 mm apart cover the area: length × pitch = (40 × 20 − 12 × 8) mm², within a line or two of 28 mm.
  CHECK(std::abs(total * 2.5 - 704) < 2.5 * 28);
}

TEST_CASE("labels keep their pitch, their order and their bounds, and stay where they are when nothing is near") {
  std::mt19937 random{11};
  for (int round = 0; round < 500; ++round) {
    std::vector<Length> wished;
    const std::size_t count = 1 + random() % 25;
    for (std::size_t i = 0; i < count; ++i) wished.push_back(static_cast<double>(random() % 1000) / 10 * mm);
    std::sort(wished.begin(), wished.end());
    const auto places = spread(wished, 4 * mm, 0 * mm, 100 * mm);
    REQUIRE(places);  // 24 × 4 mm is less than 100 mm
    for (std::size_t i = 0; i < count; ++i) {
      CHECK((places->at(i) >= -1e-6 * mm && places->at(i) <= 100 * mm + 1e-6 * mm));
      if (i > 0) CHECK(places->at(i) - places->at(i - 1) >= 4 * mm - 1e-6 * mm);
    }
  }
  const std::vector<Length> far{0 * mm, 10 * mm, 30 * mm};
  CHECK(*spread(far, 4 * mm, 0 * mm, 50 * mm) == far);
  // Two that wish the same place part evenly.
  const auto pair = *spread(std::vector<Length>{20 * mm, 20 * mm}, 4 * mm, 0 * mm, 50 * mm);
  CHECK(std::abs(pair[0] / mm - 18) < 1e-9);
  CHECK(std::abs(pair[1] / mm - 22) < 1e-9);
  CHECK(!spread(far, 30 * mm, 0 * mm, 50 * mm));
}
