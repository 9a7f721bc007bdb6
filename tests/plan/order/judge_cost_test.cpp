#include "plan/order/judge_cost.h"
#include "diagnose/problem.h"

#include <doctest/doctest.h>

#include "planning.h"

using namespace blankwright;

namespace {

std::string priced(const std::string& price) {
  return with(awl(), "quantity = 6", "quantity = 6\nprice = \"" + price + "\"");
}

Diagnostics cost_judged(const std::string& price, double per_good_piece) {
  Diagnostics out;
  judge_cost({.per_piece = 1, .per_good_piece = per_good_piece, .currency = "EUR"}, order_of(priced(price)), out);
  return out;
}

Diagnostics currencies(const std::string& order, const std::string& costs) {
  Diagnostics out;
  const bool one = one_currency(order_of(order), shop_of(bench() + costs), out);
  CHECK(one == (out.errors() == 0));
  return out;
}

}  // namespace

TEST_CASE("a price below what a delivered piece costs is warned of, and the one in the hint covers it") {
  CHECK(cost_judged("42.27 EUR", 42.2667).all().empty());
  const auto said = cost_judged("42.26 EUR", 42.2667);
  REQUIRE(said.all().size() == 1);
  CHECK(said.all().front().severity == Severity::warning);
  CHECK(said.all().front().problem == Problem::price_below_cost);
  CHECK(said.all().front().hint_text().starts_with("price = \"42.27 EUR\""));
  Diagnostics unpriced;
  judge_cost({.per_piece = 1, .per_good_piece = 50, .currency = "EUR"}, order_of(awl()), unpriced);
  CHECK(unpriced.all().empty());
}

TEST_CASE("prices in several currencies are refused where they stand") {
  const std::string costs = "\n[costs]\nlabour_per_hour = \"40 EUR\"\nstud_each = \"1.20 EUR\"\n";
  CHECK(currencies(priced("42 EUR"), costs).all().empty());
  CHECK(currencies(priced("42 USD"), "").all().empty());
  CHECK(currencies(awl(), costs).all().empty());
  const auto order_differs = currencies(priced("42 USD"), costs);
  REQUIRE(order_differs.errors() == 1);
  CHECK(order_differs.all().front().problem == Problem::currency_differs);
  CHECK(order_differs.all().front().at.source->name == "job.toml");
  const auto shop_differs = currencies(priced("42 EUR"), with(costs, "1.20 EUR", "1.20 CHF"));
  REQUIRE(shop_differs.errors() == 1);
  CHECK(shop_differs.all().front().at.source->name == "shop.toml");
  CHECK(shop_differs.all().front().labels.size() == 1);
}
