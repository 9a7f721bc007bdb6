#include "plan/tables/wood.h"

#include <doctest/doctest.h>

#include <cmath>

#include "diagnose/failure.h"

using namespace blankwright;

TEST_CASE("wood shrinks in proportion to the moisture lost below 30 percent") {
  // Wood Handbook eq. 4-7: sugar maple, tangential 9.9 %, green to 8 %.
  CHECK(std::abs(shrinkage_at(9.9 * percent, 8 * percent) / percent - 7.26) <= 0.01);
  CHECK(shrinkage_at(9.9 * percent, 45 * percent) == Share{});
  CHECK(shrinkage_at(9.9 * percent, Share{}) == 9.9 * percent);
}

TEST_CASE("size after drying from one moisture to another is the handbook's") {
  // Wood Handbook ch. 13, dD = D (Mf − Mi)/(3000/S − 30 + Mi), from memory; printed to 0.01 mm.
  struct Row {
    double size, shrinkage, from, to, after;
  };
  for (const Row& row : {Row{50, 9.9, 30, 8, 46.37}, Row{50, 7.8, 12, 6, 49.18}}) {
    CAPTURE(row.shrinkage);
    const double before = (whole - shrinkage_at(row.shrinkage * percent, row.from * percent)) / whole;
    const double after = (whole - shrinkage_at(row.shrinkage * percent, row.to * percent)) / whole;
    CHECK(std::abs(row.size * after / before - row.after) <= 0.02);
  }
}

TEST_CASE("the loss to oven-dry counts from the size at the moisture it starts from") {
  // By hand: S0 = 12 %, from 10 %: left 0.88 of green when dry, 1 − 0.12 × 20/30 = 0.92 at 10 %; 1 − 0.88/0.92
  // = 4.348 %.
  CHECK(std::abs(shrinkage_to_dry(12 * percent, 10 * percent) / percent - 4.348) <= 5e-4);
  // Green, or wetter, loses S0 itself.
  CHECK(std::abs(shrinkage_to_dry(12 * percent, 30 * percent) / percent - 12) <= 1e-9);
  CHECK(std::abs(shrinkage_to_dry(12 * percent, 80 * percent) / percent - 12) <= 1e-9);
  CHECK(std::abs(shrinkage_to_dry(12 * percent, Share{}) / percent) <= 1e-9);
  CHECK_THROWS_AS(shrinkage_to_dry(12 * percent, -1 * percent), BrokenPromise);
}

TEST_CASE("specific gravity rises as the wood shrinks") {
  // Wood Handbook eq. 4-9, worked with its tables' figures; computed, printed to 0.0001.
  CHECK(std::abs(specific_gravity_at(0.56, 14.7 * percent, Share{}) - 0.6565) <= 6e-4);
  CHECK(std::abs(specific_gravity_at(0.56, 14.7 * percent, 8 * percent) - 0.6277) <= 6e-4);
  CHECK(std::abs(specific_gravity_at(0.51, 12.8 * percent, 12 * percent) - 0.5524) <= 6e-4);
  CHECK(std::abs(specific_gravity_at(0.47, 11.5 * percent, 12 * percent) - 0.5048) <= 6e-4);
  CHECK(std::abs(specific_gravity_at(0.55, 13.3 * percent, 12 * percent) - 0.5977) <= 6e-4);
}
