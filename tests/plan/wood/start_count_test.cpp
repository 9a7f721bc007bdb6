#include "plan/wood/start_count.h"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "planning.h"

using namespace blankwright;

namespace {

StartCountInput count_input(int quantity, int good, int started, double confidence) {
  return {.quantity = quantity,
          .seen = YieldSeen{good, started, YieldBy::shop},
          .confidence = given(confidence * whole),
          .spares = given(2)};
}

/// P(good >= need of n) with Jeffreys' prior, term by term: C(n,k) B(k + a, n − k + b)/B(a, b).
double beta_binomial(int need, int n, int good, int started) {
  const double a = good + 0.5;
  const double b = started - good + 0.5;
  const auto log_beta = [](double x, double y) { return std::lgamma(x) + std::lgamma(y) - std::lgamma(x + y); };
  double sum = 0;
  for (int k = need; k <= n; ++k) {
    const double log_choose = std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0);
    sum += std::exp(log_choose + log_beta(k + a, n - k + b) - log_beta(a, b));
  }
  return sum;
}

}  // namespace

TEST_CASE("the number to start is that of the exact beta-binomial with Jeffreys' prior") {
  // Computed outside this program with exact sums in rational arithmetic, not published.
  struct Row {
    int quantity, good, started;
    double confidence;
    int pieces;
  };
  const Row rows[] = {{6, 18, 20, 0.90, 8},
                      {6, 18, 20, 0.95, 9},
                      {10, 18, 20, 0.95, 15},
                      {10, 90, 100, 0.95, 13},
                      {4, 9, 10, 0.90, 6}};
  for (const Row& row : rows) {
    CAPTURE(row.quantity);
    CAPTURE(row.confidence);
    CHECK(start_count(count_input(row.quantity, row.good, row.started, row.confidence))->value.pieces == row.pieces);
  }
}

TEST_CASE(
    "a first lot that failed is added to the shop's own count, and the register speaks alone once it has as many") {
  const auto stated = [](int good, int started) { return std::optional{given(Counts{good, started})}; };
  const auto counted = [](int good, int lost) { return std::optional{YieldCounted{good, lost, {}}}; };
  struct Row {
    std::optional<YieldCounted> by_register;
    std::optional<Given<Counts>> stated;
    int good, started;
    YieldBy by;
  };
  // Sums, by hand.
  const Row rows[] = {{std::nullopt, stated(17, 20), 17, 20, YieldBy::shop},
                      {counted(0, 0), stated(17, 20), 17, 20, YieldBy::shop},
                      {counted(0, 3), stated(17, 20), 17, 23, YieldBy::shop_and_register},
                      {counted(15, 4), stated(17, 20), 32, 39, YieldBy::shop_and_register},
                      {counted(15, 5), stated(17, 20), 15, 20, YieldBy::register_alone},
                      {counted(0, 20), stated(17, 20), 17, 40, YieldBy::shop_and_register},
                      {counted(6, 4), std::nullopt, 6, 10, YieldBy::register_alone}};
  for (const Row& row : rows) {
    const auto seen = yield_seen(row.by_register, row.stated);
    REQUIRE(seen);
    CHECK(seen->good == row.good);
    CHECK(seen->started == row.started);
    CHECK(seen->counted == row.by);
  }
  // Too few to tell: the quantity and the spares, with a warning.
  CHECK_FALSE(yield_seen(counted(2, 1), std::nullopt));
  CHECK_FALSE(yield_seen(counted(0, 12), std::nullopt));
  CHECK_FALSE(yield_seen(std::nullopt, std::nullopt));
}

TEST_CASE("the pieces to start are enough with the confidence asked for, and one fewer are not") {
  for (const int quantity : {1, 2, 6, 12, 40}) {
    for (const double confidence : {0.5, 0.8, 0.9, 0.95, 0.99}) {
      CAPTURE(quantity);
      CAPTURE(confidence);
      const auto count = start_count(count_input(quantity, 17, 20, confidence));
      REQUIRE(count.has_value());
      const int n = count->value.pieces;
      CHECK(beta_binomial(quantity, n, 17, 20) >= confidence - 1e-9);
      if (n > quantity) CHECK(beta_binomial(quantity, n - 1, 17, 20) < confidence);
      CHECK(*count->value.chance_enough == doctest::Approx(beta_binomial(quantity, n, 17, 20)).epsilon(1e-9));
      // Mean of the beta-binomial: n a/(a + b).
      CHECK(*count->value.expected_surplus == doctest::Approx(n * 17.5 / 21 - quantity).epsilon(1e-9));
    }
  }
}

TEST_CASE("without any yield no chance is stated, only the shop's spares are added") {
  StartCountInput in = count_input(6, 0, 0, 0.9);
  in.seen.reset();
  const StartCount count = start_count(in)->value;
  CHECK(count.pieces == 6 + 2);
  CHECK_FALSE(count.chance_enough.has_value());
  CHECK_FALSE(count.expected_surplus.has_value());
}

TEST_CASE("blanks that were issued to an order stay with it, and the chance is that of all of them") {
  StartCountInput in = count_input(6, 18, 20, 0.9);
  in.issued = 7;
  CHECK(start_count(in)->value.pieces == 8);
  in.issued = 11;
  const StartCount more = start_count(in)->value;
  CHECK(more.pieces == 11);
  CHECK(more.needed == 8);  // three of its IDs can be withdrawn
  CHECK(*more.chance_enough == doctest::Approx(beta_binomial(6, 11, 18, 20)).epsilon(1e-9));
  in.seen.reset();
  CHECK(start_count(in)->value.pieces == 11);
}

TEST_CASE("a yield with which no number would do gives none") {
  CHECK_FALSE(start_count(count_input(5000, 1, 50, 0.9)).has_value());
}

TEST_CASE("what comes from stock need not be started, and counts for the chance as what is started does") {
  // 8 for 6 by the exact sums above: with three from stock five are started, and all eight can come out good.
  StartCountInput in = count_input(6, 18, 20, 0.9);
  in.so_far.from_stock = 3;
  const StartCount count = start_count(in)->value;
  CHECK(count.pieces == 5);
  in.issued = 8;
  CHECK(start_count(in)->value.needed == 5);  // what stock takes the place of is not needed
  CHECK(*count.chance_enough == doctest::Approx(beta_binomial(6, 8, 18, 20)).epsilon(1e-9));
  CHECK(*count.expected_surplus == doctest::Approx(8 * 18.5 / 21 - 6).epsilon(1e-9));
  // Two of them good and one lost since: six are wanted, four more, of those five less three and the stock.
  in.so_far.good = 2;
  in.so_far.lost = 1;
  in.issued = 5;
  const StartCount later = start_count(in)->value;
  const int open = later.pieces - 3 + 3;
  CHECK(*later.chance_enough == doctest::Approx(beta_binomial(4, open, 18, 20)).epsilon(1e-9));
}

TEST_CASE("an order has a witness for each bath that its pieces and witnesses fill") {
  const std::string job = order_file("../../sample-jobs/metric/burnisher.toml");
  const std::string shop = order_file("../../sample-jobs/metric/shop.toml");
  int most = 0;
  for (const int quantity : {1, 6, 9, 10, 11, 12, 24, 40}) {
    CAPTURE(quantity);
    const OrderPlan plan = plan_of(with(job, "quantity = 6", fmt::format("quantity = {}", quantity)), shop);
    const int room = plan.process.bath_room;
    REQUIRE(room > 1);
    int baths = 0;
    while (baths * room < plan.start.pieces + baths) ++baths;
    CHECK(plan.witnesses == baths);
    most = std::max(most, baths);
  }
  CHECK(most > 1);
}
