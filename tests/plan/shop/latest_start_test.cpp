// Orders that go on in several baths or groups. What has to be so by rule: planned anew from its latest start an
// order is on time, a minute later it is late; what runs takes nothing from that; and blanks go on when their own
// bath is through, not when the order's last one is.

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <set>

#include "shared_orders.h"

using namespace blankwright;

namespace {

constexpr std::string_view monday = "2027-06-07T08:00:00+02:00";

/// An order alone in its shop, planned from a moment.
OrderTimes planned_from(const OrderToMake& order, const Shop& shop, Instant from) {
  Diagnostics said;
  const ShopTime time = shop_time(shop, from);
  const std::array orders{order};
  const ShopPlan plan = plan_shop(orders, shop, time, said);
  REQUIRE(plan.orders.front().times.has_value());
  return times_in_full(0, plan, orders, shop, time, said);
}

/// Blanks of an order that stand at a step of its routing, those of one bath.
BlankGroup at_step(std::size_t step, int pieces, const std::string& bath) {
  BlankGroup group;
  group.at.next = step;
  group.at.since = at(monday) - std::chrono::hours{1};
  group.pieces = pieces;
  group.bath = bath;
  return group;
}

void check_latest(const OrderToMake& order, const Shop& shop) {
  const OrderTimes times = planned_from(order, shop, at(monday));
  REQUIRE(times.delivery.has_value());
  REQUIRE(times.delivery->late_by == std::chrono::minutes{0});
  REQUIRE((times.delivery->latest_start && times.delivery->slack));
  const Instant latest = *times.delivery->latest_start;
  CHECK(*times.delivery->slack == latest - *next_start(times.planned));
  CHECK(planned_from(order, shop, latest).delivery->late_by == std::chrono::minutes{0});
  CHECK(planned_from(order, shop, latest + std::chrono::minutes{1}).delivery->late_by > std::chrono::minutes{0});
}

}  // namespace

TEST_CASE("the latest start of an order in several baths is that from which all of them are done in time") {
  const Shop shop = shop_for_baths();
  for (const int pieces : {3, 20, 30}) {
    for (const char* due : {"2027-07-02", "2027-07-07", "2027-09-30"}) {
      CAPTURE(pieces);
      CAPTURE(due);
      check_latest(wanted(shop, pieces, due), shop);
    }
  }
}

TEST_CASE("the latest start of an order whose blanks went apart is that of all its groups") {
  const Shop shop = shop_for_baths();
  OrderToMake order = wanted(shop, 12, "2027-07-02");
  order.under_way = {at_step(4, 3, "B1"), at_step(3, 5, "B2")};  // cured, and wet
  check_latest(order, shop);
  // By hand: those that are cured are turned in 1.5 h and could wait; the others need days.
  order.pieces = 0;
  order.under_way = {at_step(4, 3, "B1")};
  check_latest(order, shop);
}

TEST_CASE("what an order's bath still has to soak is no part of what is left to begin") {
  // The same blanks wait for the oven in one order, and in the other soak since Monday 07:00, until Tuesday at 08:00,
  // when somebody is there. What is left after that is the same, and so is when it has to begin at the latest.
  const Shop shop = shop_for_baths();
  OrderToMake wet = wanted(shop, 0, "2027-07-02"), soaking = wet;
  wet.under_way = {at_step(3, 4, "B1")};
  soaking.under_way = {at_step(2, 4, "B1")};
  soaking.under_way.front().at.begun = at("2027-06-07T07:00:00+02:00");
  soaking.under_way.front().vessel = "pot";
  const OrderTimes then = planned_from(soaking, shop, at(monday));
  CHECK(then.planned.operations.at(3).start >= at("2027-06-08T08:00:00+02:00"));
  CHECK(then.delivery->latest_start == planned_from(wet, shop, at(monday)).delivery->latest_start);
}

TEST_CASE("blanks go on when their own bath is through, where the order is done sooner by that") {
  const Shop shop = shop_for_baths();
  const ShopPlan plan = planned({wanted(shop, 30, "2027-09-30")}, shop);
  REQUIRE(plan.baths.size() > 1);
  const auto& operations = plan.orders.front().times->planned.operations;
  const auto& turned = operations.at(4).runs;
  REQUIRE(turned.size() == plan.baths.size());
  CHECK(turned.front().at.from < operations.at(3).end);
  int blanks = 0;
  for (std::size_t k = 0; k < turned.size(); ++k) {
    blanks += turned.at(k).blanks;
    Instant cured{};
    for (const PlannedLoad& load : plan.loads) {
      if (load.bath == k) cured = std::max(cured, load.cure->to);
    }
    CHECK(turned.at(k).at.from >= cured);
    CHECK(turned.at(k).blanks == plan.baths.at(k).shares.front().total());
  }
  CHECK(blanks == 30);
}

TEST_CASE("what may not wait behind the cure is done behind each of an order's baths") {
  const std::string scrape =
      "[[routing]]\nname = \"Scrape\"\nwho = \"keeper\"\nper_piece = \"2 min\"\nlongest_wait = \"3 h\"\n\n"
      "[[routing]]\nname = \"Turn\"";
  const std::string shop_text = order_file("shop.toml");
  const Shop shop = shop_of(shop_text.substr(0, shop_text.find("[[routing]]")) +
                            with(process, "[[routing]]\nname = \"Turn\"", scrape));
  const ShopPlan plan = planned({wanted(shop, 30, "2027-09-30")}, shop);
  REQUIRE(plan.baths.size() > 1);
  const auto& scraped = plan.orders.front().times->planned.operations.at(4).runs;
  REQUIRE(scraped.size() == plan.baths.size());
  for (std::size_t k = 0; k < scraped.size(); ++k) {
    Instant cured{};
    for (const PlannedLoad& load : plan.loads) {
      if (load.bath == k) cured = std::max(cured, load.cure->to);
    }
    CHECK(scraped.at(k).at.from >= cured);
    CHECK(scraped.at(k).at.from <= cured + std::chrono::hours{3});
  }
}

TEST_CASE("a load of a real bath is told with its own blanks, and all of them with no more than there are") {
  // The oven takes 5 blanks of 40 × 130 mm: 7 wet ones go in as 4 and 3.
  const Shop shop = shop_for_baths();
  OrderToMake order = wanted(shop, 0, "2027-07-02");
  order.under_way = {at_step(3, 7, "B1")};
  const ShopPlan plan = planned({order}, shop);
  std::vector<int> loads;
  for (const PlannedRun& run : plan.orders.front().times->planned.operations.at(3).runs) loads.push_back(run.blanks);
  CHECK(loads == std::vector{4, 3});
}

TEST_CASE("a late order that waits for what is out of order is told until when that is") {
  const std::string shop_text = order_file("shop.toml");
  const Shop shop = shop_of(
      shop_text.substr(0, shop_text.find("[[routing]]")) +
      with(process, "name = \"oven\"\n", "name = \"oven\"\noutages = [{from = 2027-06-01, to = 2029-01-05}]\n"));
  const PlannedInFull plan = planned({wanted(shop, 3, "2027-07-02")}, shop);
  REQUIRE(plan.orders.front().said.all().size() == 1);
  CHECK(plan.orders.front().said.all().front().hint_text().starts_with("\"oven\" is out of order until 2029-01-06"));
}
