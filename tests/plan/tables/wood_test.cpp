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

TEST_CASE("wood conducts heat across the grain as the handbook's table says") {
  // Wood Handbook (FPL-GTR-190) table 4-7, column 12 %, printed to 0.01 W/(m K); with the specific gravities that the
  // table itself goes by (from memory), which are not those of table 5-3.
  struct Row {
    const char* wood;
    double gravity, conductivity;
  };
  for (const Row& row :
       {Row{"black cherry", 0.53, 0.15}, Row{"sugar maple", 0.66, 0.18}, Row{"basswood", 0.38, 0.11},
        Row{"American beech", 0.68, 0.18}, Row{"shagbark hickory", 0.77, 0.21}, Row{"white oak", 0.72, 0.19}}) {
    CAPTURE(row.wood);
    CHECK(std::abs(conductivity_across(row.gravity, 12 * percent) - row.conductivity) <= 0.006);
  }
  // The same equation in its other units, 0.129 + G (1.34 + 0.028 x): G 0.50, 12 %, 0.967 Btu in/(h ft² °F);
  // half of the coefficients' last digits: 0.0005 + 0.50 (0.005 + 12 · 0.0005) = 0.006.
  constexpr double btu_inch = 0.1442279;  // W/(m K); NIST SP 811 (2008) app. B.8
  CHECK(std::abs(conductivity_across(0.50, 12 * percent) / btu_inch - 0.967) <= 0.006);
  // Worked example in the documentation of an open library that implements eq. 4-15: green specific gravity 0.54,
  // volumetric shrinkage 12.3 %, 10 %: 0.1567 W/(m K).
  const double gravity = specific_gravity_at(0.54, 12.3 * percent, 10 * percent);
  CHECK(std::abs(conductivity_across(gravity, 10 * percent) - 0.1567) <= 0.0001);
}

TEST_CASE("wood takes up heat as the handbook's table says") {
  // Wood Handbook (FPL-GTR-190) table 4-8, printed to 0.1 kJ/(kg K), from memory; the first row by eq. 4-16 to 4-18
  // as worked in the documentation of an open library.
  struct Row {
    double moisture, kelvins, capacity, tolerance;
  };
  for (const Row& row :
       {Row{12, 340, 1.91, 0.006}, Row{0, 290, 1.2, 0.06}, Row{0, 300, 1.3, 0.06}, Row{0, 320, 1.3, 0.06},
        Row{0, 340, 1.4, 0.06}, Row{12, 300, 1.7, 0.06}, Row{12, 340, 1.9, 0.06}, Row{5, 340, 1.6, 0.06}}) {
    CAPTURE(row.moisture);
    CAPTURE(row.kelvins);
    const Temperature at = Temperature::above_zero(row.kelvins * kelvin);
    CHECK(std::abs(heat_capacity(row.moisture * percent, at) / 1000 - row.capacity) <= row.tolerance);
  }
}
