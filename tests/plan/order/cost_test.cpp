#include "plan/order/cost.h"
#include "plan/figure/figure.h"

#include <doctest/doctest.h>

#include "planning.h"

using namespace blankwright;

namespace {

Given<Money> euros(double amount) { return given(Money{amount, "EUR"}); }

}  // namespace

TEST_CASE("a piece costs its share of the work, its wood, its resin, its stud and its share of the order") {
  // By hand: 5 h at 40 and 12 an order on 8 blanks are 26.50 each; 0.25 l of wood at 6 are 1.50; 0.1 l of resin at
  // 90 for 3.6 l are 2.50; a stud 1.20. Together 31.70 a blank; 8 of them for 6 delivered, 42.2667 each.
  CostFacts facts;
  facts.labour_per_hour = euros(40);
  facts.wood_per_litre = euros(6);
  facts.stud_each = euros(1.2);
  facts.per_order = euros(12);
  ResinFacts resin;
  resin.price = euros(90);
  resin.price_for = given(3.6 * litre);
  CostInput in{.quantity = 6,
               .started = 8,
               .hands_on = 5 * hour,
               .sawn_wood = 250 * cm3,
               .resin = 0.1 * litre,
               .resin_facts = &resin,
               .facts = facts};
  const auto whole_cost = cost(in);
  REQUIRE(whole_cost.has_value());
  CHECK(whole_cost->value.per_piece == doctest::Approx(31.70));
  CHECK(whole_cost->value.per_good_piece == doctest::Approx(31.70 * 8 / 6));
  CHECK(whole_cost->value.currency == "EUR");

  // What has no price, or is not used, counts as nothing.
  resin.price.reset();
  CHECK(cost(in)->value.per_piece == doctest::Approx(29.20));
  resin.price = euros(90);
  in.resin.reset();
  CHECK(cost(in)->value.per_piece == doctest::Approx(29.20));
  in.resin_facts = nullptr;
  CHECK(cost(in)->value.per_piece == doctest::Approx(29.20));
  facts.labour_per_hour.reset();
  CHECK(cost(in)->value.per_piece == doctest::Approx(4.20));
  facts.wood_per_litre.reset();
  facts.stud_each.reset();
  CHECK(cost(in)->value.per_piece == doctest::Approx(1.50));
  facts.per_order.reset();
  CHECK_FALSE(cost(in).has_value());
}

TEST_CASE("the more blanks an order loses the dearer is each that is delivered") {
  CostFacts facts;
  facts.labour_per_hour = euros(40);
  facts.wood_per_litre = euros(6);
  double before = 0;
  for (int started = 6; started < 30; ++started) {
    const auto c = cost({.quantity = 6,
                         .started = started,
                         .hands_on = 5 * hour,
                         .sawn_wood = 250 * cm3,
                         .resin = std::nullopt,
                         .facts = facts});
    REQUIRE(c.has_value());
    CHECK(c->value.per_good_piece > before);
    before = c->value.per_good_piece;
    CHECK(c->value.per_good_piece * 6 == doctest::Approx(5 * 40 + started * 1.5));
  }
}

TEST_CASE("an order pays for the film that stays on its blanks, as for the resin that they take up") {
  // Film on all six faces, 2 s² + 4 s l; 58 EUR a litre, as the sample's shop has it.
  const std::string job = order_file("../../sample-jobs/metric/burnisher.toml");
  const std::string shop = order_file("../../sample-jobs/metric/shop.toml");
  REQUIRE(shop.find("price = \"58 EUR\"\nprice_for = \"1 l\"") != std::string::npos);
  const OrderPlan thin = plan_of(job, shop);
  const OrderPlan thick = plan_of(job, with(shop, "film = \"0.1 mm\"", "film = \"0.15 mm\""));
  REQUIRE(thin.blanks() == thick.blanks());
  const double s = in_mm(thin, Figure::blank_dry_section), l = in_mm(thin, Figure::blank_dry_length);
  const double litres = 0.05 * (2 * s * s + 4 * s * l) * 1e-6;
  CHECK(bare(thick, Figure::cost_per_piece) - bare(thin, Figure::cost_per_piece) ==
        doctest::Approx(litres * 58).epsilon(1e-6));
}

TEST_CASE("prices in two currencies are not added up") {
  CostFacts facts;
  facts.labour_per_hour = euros(40);
  facts.stud_each = given(Money{1, "USD"});
  const CostInput in{.quantity = 1,
                     .started = 1,
                     .hands_on = 1 * hour,
                     .sawn_wood = 250 * cm3,
                     .resin = std::nullopt,
                     .facts = facts};
  CHECK_THROWS(cost(in));
}
