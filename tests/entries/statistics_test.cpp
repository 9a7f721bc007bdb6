#include "entries/statistics.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "../plan/random_numbers.h"
#include "entries/record.h"

using namespace blankwright;

namespace {

KnownBlank blank(const std::string& order, Stage stage, std::optional<Outcome> result = {}) {
  KnownBlank known;
  known.blank.order = known.blank.promised = order;
  known.blank.stage = stage;
  known.blank.result = result;
  return known;
}

KnownBlank bored(double x_mm, double y_mm, double slope_x = 0, double slope_y = 0) {
  KnownBlank known = blank("T", Stage::stud_set);
  known.blank.axis = AxisOffset{x_mm * mm, y_mm * mm, slope_x, slope_y};
  return known;
}

}  // namespace

TEST_CASE("blanks count once their order is through, so that scrap does not count before success can") {
  std::vector<KnownBlank> blanks;
  // Order A wants two and has them; one more is cured, one is scrapped, a witness was cut.
  blanks.push_back(blank("A", Stage::sent));
  blanks.push_back(blank("A", Stage::stud_set));
  blanks.push_back(blank("A", Stage::cured));
  blanks.push_back(blank("A", Stage::scrapped));
  blanks.push_back(blank("A", Stage::cut_open));
  blanks.push_back(blank("A", Stage::scrapped));  // a witness: those that come through are cut, so none counts
  blanks.back().blank.witness = true;
  // Order B wants two and has none yet: its scrap must not count alone.
  blanks.push_back(blank("B", Stage::scrapped));
  blanks.push_back(blank("B", Stage::in_bath));
  // Order C is over without having reached what was wanted.
  blanks.push_back(blank("C", Stage::inspected, Outcome::fail));
  blanks.push_back(blank("C", Stage::inspected, Outcome::pass));
  const YieldCounted seen = yield_counted(blanks, {{"A", 2}, {"B", 2}, {"C", 5}});
  CHECK(seen.good == 4);
  CHECK(seen.lost == 2);
  CHECK(seen.not_through == std::set<std::string>{"B"});
}

TEST_CASE("a spread is that of the handbook") {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.6 defines s with n - 1; worked by hand for 2 4 4 4 5 5 7
  // 9: mean 5, sum of squares 32, s = sqrt(32/7).
  const std::array values{2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0};
  const auto spread = spread_of(values);
  REQUIRE(spread.has_value());
  CHECK(spread->mean == doctest::Approx(5));
  CHECK(spread->deviation == doctest::Approx(std::sqrt(32.0 / 7)));
  CHECK(spread->least == 2);
  CHECK(spread->most == 9);
  CHECK_FALSE(spread_of(std::span{values}.first(1)).has_value());
}

TEST_CASE("gains are those of a kind of wood, on the dry mass") {
  std::vector<KnownBlank> blanks(3, blank("A", Stage::cured));
  for (KnownBlank& known : blanks) known.species = "beech", known.condition = "spalted";
  blanks.at(0).blank.dry = 100 * gram, blanks.at(0).blank.wet = 210 * gram, blanks.at(0).blank.cured = 200 * gram;
  blanks.at(1).blank.dry = 200 * gram, blanks.at(1).blank.wet = 380 * gram;
  blanks.at(2).blank.wet = 300 * gram;  // was never weighed dry
  const auto seen = uptake_seen(blanks);
  REQUIRE(seen.size() == 1);
  CHECK(seen.front().species == "beech");
  REQUIRE(seen.front().wet.has_value());
  CHECK(seen.front().wet->n == 2);
  CHECK(seen.front().wet->mean == doctest::Approx(1.0));  // 1.1 and 0.9
  CHECK_FALSE(seen.front().cured.has_value());            // one alone tells no spread
}

TEST_CASE("the radius for many bores is Rayleigh's, and for few it is wider") {
  // Four bores a millimetre off, one in each direction: sigma² = Σr²/2n = 1/2. By hand with F(2, 8) = 4.4590 (5 %;
  // NIST/SEMATECH e-Handbook 1.3.6.7.3): r = sigma √(2 · 4.459).
  const std::vector<KnownBlank> four{bored(1, 0), bored(-1, 0), bored(0, 1), bored(0, -1)};
  const auto few = axis_spread(four);
  REQUIRE(few.has_value());
  CHECK(few->n == 4);
  CHECK(few->offset_95 / mm == doctest::Approx(std::sqrt(0.5) * std::sqrt(2 * 4.4590)).epsilon(1e-4));
  CHECK_FALSE(few->fence_off);
  std::vector<KnownBlank> many;
  for (int k = 0; k < 1000; ++k) many.insert(many.end(), four.begin(), four.end());
  // 2.44775 sigma: the 95 % quantile of the Rayleigh distribution, √(−2 ln 0.05).
  CHECK(axis_spread(many)->offset_95 / mm == doctest::Approx(std::sqrt(0.5) * 2.44775).epsilon(1e-3));
  CHECK_FALSE(axis_spread(std::span{four}.first(1)).has_value());
}

TEST_CASE("a fence that is off is told apart from scatter, and scatter alone is rarely taken for it") {
  RandomNumbers numbers{20270503};
  int false_alarms = 0, found = 0;
  constexpr int shops = 2000;
  for (int shop = 0; shop < shops; ++shop) {
    std::vector<KnownBlank> true_fence, off_fence;
    for (int k = 0; k < 12; ++k) {
      const double x = numbers.normal(), y = numbers.normal();
      true_fence.push_back(bored(0.2 * x, 0.2 * y));
      off_fence.push_back(bored(0.2 * x + 0.3, 0.2 * y));
    }
    false_alarms += axis_spread(true_fence)->fence_off ? 1 : 0;
    found += axis_spread(off_fence)->fence_off ? 1 : 0;
  }
  // 5 of 100 by the test's level; within four standard errors of a binomial, √(0.05 · 0.95/2000) = 0.49 %.
  CHECK(static_cast<double>(false_alarms) / shops == doctest::Approx(0.05).epsilon(0.4));
  CHECK(found > 0.95 * shops);
}

TEST_CASE("of many next bores 95 of 100 lie within the radius that a few bores told") {
  RandomNumbers numbers{7};
  for (const int measured : {3, 8, 30}) {
    int within = 0;
    constexpr int shops = 4000;
    for (int shop = 0; shop < shops; ++shop) {
      std::vector<KnownBlank> seen;
      for (int k = 0; k < measured; ++k) seen.push_back(bored(0.3 * numbers.normal(), 0.3 * numbers.normal()));
      const double next = std::hypot(0.3 * numbers.normal(), 0.3 * numbers.normal());
      within += next <= axis_spread(seen)->offset_95 / mm ? 1 : 0;
    }
    CAPTURE(measured);
    // Four standard errors of a binomial: 4 √(0.95 · 0.05/4000) = 1.4 %.
    CHECK(std::abs(static_cast<double>(within) / shops - 0.95) < 0.014);
  }
}

TEST_CASE("pulled studs tell the least and the mean") {
  std::vector<KnownBlank> blanks(3, blank("A", Stage::cut_open));
  CHECK_FALSE(pulled_seen(blanks).has_value());
  blanks.at(0).blank.pulled = 3000 * newton;
  blanks.at(2).blank.pulled = 2000 * newton;
  CHECK(pulled_seen(blanks)->n == 2);
  CHECK(pulled_seen(blanks)->least / newton == doctest::Approx(2000));
  CHECK(pulled_seen(blanks)->mean / newton == doctest::Approx(2500));
}

TEST_CASE("an order so far: good, lost, from stock") {
  Record record;
  const auto add = [&](Stage stage, const std::string& promised = "A", std::optional<Outcome> result = {}) {
    BlankState state;
    state.order = "A";
    state.promised = promised;
    state.stage = stage;
    state.result = result;
    record.blanks.push_back(state);
  };
  add(Stage::sent);
  add(Stage::stud_set);
  add(Stage::scrapped);
  add(Stage::inspected, "A", Outcome::fail);
  add(Stage::cured, "B");
  add(Stage::cut_open);
  add(Stage::cut_open);
  record.blanks.back().witness = true;
  record.promised = {blank("B", Stage::cured).blank, blank("B", Stage::scrapped).blank};
  const OrderSoFar now = order_so_far(record);
  CHECK(now.good == 2);
  CHECK(now.lost == 4);  // scrapped, failed, promised away, and one cut open that was no witness
  CHECK(now.from_stock == 1);
}
