#include "plan/tables/drills.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "diagnose/failure.h"

using namespace blankwright;

TEST_CASE("a drill's point is as long as its cone is") {
  // Geometry of the cone; the factor at 118° (0.3004) is also a published rule of thumb. 10.5 mm: hand calculation.
  CHECK(std::abs(point_length(1 * mm, 118 * degree) / mm - 0.3004) <= 6e-5);
  CHECK(std::abs(point_length(1 * mm, 135 * degree) / mm - 0.2071) <= 6e-5);
  CHECK(std::abs(point_length(1 * mm, 90 * degree) / mm - 0.5) <= 6e-5);
  CHECK(std::abs(point_length(10.5 * mm, 118 * degree) / mm - 3.154) <= 0.002);
  CHECK(point_length(10 * mm, 180 * degree) < 1e-6 * mm);
  CHECK_THROWS_AS(point_length(10 * mm, 30 * degree), BrokenPromise);
}

TEST_CASE("the next drill up is never a thinner one") {
  const auto in_mm = [](const char* size, double value) {
    return Drill{{{size}, PrintedUnit::millimetres}, value * mm};
  };
  const std::vector<Drill> owned{in_mm("9", 9), in_mm("8.4", 8.4), in_mm("8", 8)};
  CHECK(next_drill_up(owned, 8.1 * mm)->name() == "8.4 mm");
  CHECK(next_drill_up(owned, 8.4 * mm)->name() == "8.4 mm");
  CHECK(next_drill_up(owned, (8.0 + 0.2 + 0.2) * mm)->name() == "8.4 mm");  // the sum is not 8.4 in binary
  CHECK(next_drill_up(owned, 8.402 * mm)->name() == "9 mm");
  CHECK(next_drill_up(owned, 1 * mm)->name() == "8 mm");
  CHECK_FALSE(next_drill_up(owned, 9.1 * mm).has_value());
  CHECK_FALSE(next_drill_up({}, 1 * mm).has_value());
}

TEST_CASE("a need in inches is met by the fraction that it is") {
  const auto owned = standard_drills(UnitSystem::inches);
  CHECK(next_drill_up(owned, 0.328125 * inch)->name() == "21/64");
  CHECK(next_drill_up(owned, 0.329 * inch)->name() == "Q");
}
