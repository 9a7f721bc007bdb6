#include "plan/part/size_in_use.h"

#include <doctest/doctest.h>

#include <cmath>

#include "plan/figure/working.h"
#include "planning.h"

using namespace blankwright;

namespace {

Length changed(Length size, double shrinkage, double from, double to) {
  return size + size_change(term(Term::form_diameter, size), term(Term::shrinkage_to_dry, shrinkage),
                            term(Term::moisture, from), term(Term::moisture, to))
                    .value();
}

SizeInUse in_use(Length seat, Share tangential, Share driest, Share dampest, Length tolerance = 0.5 * mm) {
  UseFacts use;
  use.driest = given(driest);
  use.dampest = given(dampest);
  return size_in_use({.seat = seat, .tolerance = tolerance, .tangential = tangential, .use = use}).value;
}

}  // namespace

TEST_CASE("wood changes its size from one moisture to another as the handbook reckons") {
  // Wood Handbook ch. 13, ΔD = D (Mf − Mi)/(30/S − 30 + Mi): 50 mm, 9.9 %, from 30 to 8 %: 46.37 mm; 7.8 %, from 12
  // to 6 %: 49.18 mm.
  CHECK(std::abs(changed(50 * mm, 0.099, 0.30, 0.08) / mm - 46.37) <= 0.02);
  CHECK(std::abs(changed(50 * mm, 0.078, 0.12, 0.06) / mm - 49.18) <= 0.02);
}

TEST_CASE("a change of size by way of the green one is the same") {
  // Wood Handbook eq. 4-7, shrinkage from green to x: S0 (30 − x)/30; so size at x = green × (1 − Sx).
  const auto of_green = [](double s0, double x) { return 1 - s0 * (0.30 - x) / 0.30; };
  for (const double s0 : {0.0, 0.03, 0.078, 0.118, 0.29}) {
    for (const double from : {0.0, 0.06, 0.2, 0.3}) {
      for (const double to : {0.0, 0.05, 0.12, 0.3}) {
        CHECK(changed(26 * mm, s0, from, to) / mm ==
              doctest::Approx(26 * of_green(s0, to) / of_green(s0, from)).epsilon(1e-12));
      }
    }
  }
}

TEST_CASE("a dry seat grows to the moisture of use, more where it is damper") {
  // Beech, 11.8 %: from oven-dry to 12 %, 26 × (1 − 0.118 × 18/30)/(1 − 0.118) − 26 = 1.391 mm; to 6 %, 0.696 mm.
  const SizeInUse size = in_use(26 * mm, 11.8 * percent, 6 * percent, 12 * percent);
  CHECK(size.gain_high / mm == doctest::Approx(26 * (1 - 0.118 * 18 / 30) / (1 - 0.118) - 26).epsilon(1e-9));
  CHECK(size.gain_low / mm == doctest::Approx(26 * (1 - 0.118 * 24 / 30) / (1 - 0.118) - 26).epsilon(1e-9));
}

TEST_CASE("a seat turned as advised never stands proud, even at the end of its tolerance") {
  for (const Length tolerance : {0 * mm, 0.1 * mm, 0.5 * mm}) {
    for (const Share dampest : {0 * percent, 9 * percent, 20 * percent, 30 * percent}) {
      const SizeInUse size = in_use(26 * mm, 11.8 * percent, 0 * percent, dampest, tolerance);
      const Length grown = changed(size.turn_to + tolerance, 0.118, 0, dampest / whole);
      CHECK(grown / mm == doctest::Approx(26).epsilon(1e-9));
    }
  }
}
