#include "plan/tables/statistics.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace blankwright;

TEST_CASE("the number to start is the least that is enough with the confidence asked for") {
  // Computed outside this program with exact sums in rational arithmetic, not published.
  struct Row {
    int need;
    PastYield past;
    double confidence;
    int start;
  };
  const Row rows[] = {
      {6, {18, 20, uniform}, 0.90, 9},
      {6, {18, 20, jeffreys}, 0.90, 8},
      {6, {18, 20, jeffreys}, 0.95, 9},
      {6, {18, 20, uniform}, 0.95, 9},
      {10, {18, 20, uniform}, 0.95, 15},
      {10, {18, 20, jeffreys}, 0.95, 15},
      {10, {90, 100, uniform}, 0.95, 14},
      {10, {90, 100, jeffreys}, 0.95, 13},
      {4, {9, 10, uniform}, 0.90, 6},
      {4, {9, 10, jeffreys}, 0.90, 6},
      // Without any history the answer is the prior's alone: why a plan must not print it.
      {6, {0, 0, jeffreys}, 0.90, 235},
  };
  for (const Row& row : rows) {
    CAPTURE(row.need);
    CAPTURE(row.past.good);
    CAPTURE(row.past.prior.good);
    CHECK(smallest_start(row.need, row.past, row.confidence, 1000) == row.start);
  }
  CHECK_FALSE(smallest_start(6, {0, 0, jeffreys}, 0.9, 234).has_value());
  // By hand: with the uniform prior alone P(at least 6 of n) = (n − 5)/(n + 1), which is 54/60, exactly 0.9, at 59.
  CHECK(smallest_start(6, {0, 0, uniform}, 0.9, 1000) == 59);
}

TEST_CASE("the chance of enough good blanks is the beta-binomial one") {
  // 6 of 8 after 18 of 20 with the uniform prior: beta-binomial(19, 3), computed with exact sums.
  CHECK(std::abs(chance_of_at_least(6, 8, {18, 20, uniform}) - 0.88812) <= 1e-5);
  // By hand: with the uniform prior and no history every number of good blanks is as likely as any other.
  for (int need = 0; need <= 4; ++need) {
    CHECK(std::abs(chance_of_at_least(need, 4, {0, 0, uniform}) - (5 - need) / 5.0) <= 1e-12);
  }
  // By hand: one blank is good with the chance a/(a + b) = 18.5/21.
  CHECK(std::abs(chance_of_at_least(1, 1, {18, 20, jeffreys}) - 18.5 / 21) <= 1e-12);
  CHECK(chance_of_at_least(0, 0, {1, 2}) == 1);
  CHECK(chance_of_at_least(3, 2, {1, 2}) == 0);
}

TEST_CASE("starting one more never lowers the chance, and a better record never raises the number to start") {
  for (int started = 6; started < 40; ++started) {
    CHECK(chance_of_at_least(6, started + 1, {7, 10}) >= chance_of_at_least(6, started, {7, 10}));
  }
  for (int good = 5; good < 20; ++good) {
    CHECK(*smallest_start(6, {good + 1, 20}, 0.9, 1000) <= *smallest_start(6, {good, 20}, 0.9, 1000));
  }
}

TEST_CASE("with a very long record the prediction is the plain binomial's") {
  // Binomial, P(at least 6 of 8) at p = 0.9: 0.96191 (exact sum).
  CHECK(std::abs(chance_of_at_least(6, 8, {900000, 1000000}) - 0.96191) <= 2e-5);
}

TEST_CASE("a radial error follows the Rayleigh distribution") {
  // Closed form, computed: printed to 0.00001.
  CHECK(std::abs(rayleigh_radius(0.5) - 1.17741) <= 1e-5);
  CHECK(std::abs(rayleigh_radius(0.95) - 2.44775) <= 1e-5);
  CHECK(std::abs(rayleigh_radius(0.99) - 3.03485) <= 1e-5);
  CHECK(std::abs(rayleigh_chance(1) - 0.39347) <= 1e-5);
  CHECK(rayleigh_chance(0) == 0);
}
