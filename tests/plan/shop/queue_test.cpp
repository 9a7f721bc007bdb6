// What a late order queues for, and what stands before it.

#include "plan/shop/queue.h"

#include "diagnose/problem.h"
#include "shared_orders.h"

using namespace blankwright;

namespace {

/// Their dyes differ, so that each has the pot for itself; the first goes first.
std::vector<OrderToMake> two_baths(const Shop& shop, const char* due) {
  std::vector<OrderToMake> orders{wanted(shop, 8, due), wanted(shop, 8, due, "amber")};
  orders.at(0).id = "A-1";
  orders.at(1).id = "A-2";
  return in_hand(std::move(orders));
}

}  // namespace

TEST_CASE("a late order names the vessel that it queues for, and whose bath is in it before") {
  const Shop shop = shop_for_baths();
  const auto plan = planned(two_baths(shop, "2027-06-09"), shop);
  REQUIRE_FALSE(plan.in_full.at(0).is_late());
  CHECK_FALSE(plan.in_full.at(0).queue);
  const OrderTimes& late = plan.in_full.at(1);
  REQUIRE(late.is_late());
  REQUIRE(late.queue);
  CHECK(late.queue->resource == "pot");
  CHECK(late.queue->operation == "Vacuum");
  const auto& vacuum = late.planned.operations.at(1);
  CHECK(late.queue->wait.from == late.planned.operations.at(0).end);
  CHECK(late.queue->wait.to == vacuum.start);
  REQUIRE(late.queue->behind);
  CHECK(late.queue->behind->orders == std::vector<std::string>{"A-1"});
  CHECK(late.queue->behind->bath == 0);
  CHECK(late.queue->behind->operation == "Soak");
  CHECK(late.queue->behind->at.to == plan.in_full.at(0).planned.operations.at(2).end);
  CHECK(text(in_words(*late.queue->behind)) == "bath 1 of A-1");
  const auto& said = plan.orders.at(1).said.all();
  const auto told = std::ranges::find(said, Problem::finishes_late, &Diagnostic::problem);
  REQUIRE(told != said.end());
  CHECK(told->hint_text().starts_with("before \"Vacuum\" it queues for \"pot\" from "));
  CHECK(told->hint_text().find(", behind bath 1 of A-1: make room there") != std::string::npos);
}

TEST_CASE("an order that is late by itself queues for nobody") {
  const Shop shop = shop_for_baths();
  auto orders = in_hand({wanted(shop, 14, "2027-06-07")});
  orders.front().id = "A-1";
  const auto plan = planned(orders, shop);
  REQUIRE(plan.in_full.front().is_late());
  CHECK((!plan.in_full.front().queue || !plan.in_full.front().queue->behind));
}

TEST_CASE("what is entered of a bath is named as entries do, with all whose blanks are in it") {
  const StandsBefore entered{{}, {"A-1", "A-3"}, "Soak", "B-7", std::nullopt, std::nullopt};
  CHECK(text(in_words(entered)) == "B-7 of A-1, A-3");
  const StandsBefore load{{}, {"A-1"}, "Cure", "", 1, 2};
  CHECK(text(in_words(load)) == "load 3 of A-1");
  const StandsBefore work{{}, {"A-1"}, "Turn", "", std::nullopt, std::nullopt};
  CHECK(text(in_words(work)) == "\"Turn\" of A-1");
}
