// In which turn baths and orders are placed. Expected values by rule, and by trying every turn.

#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>
#include <set>
#include <vector>

#include "plan/shop/baths.h"
#include "plan/shop/place_orders.h"
#include "shared_orders.h"

using namespace blankwright;
using std::chrono::minutes;

namespace {

minutes late(const ShopPlan& plan, const std::vector<OrderToMake>& orders, const ShopTime& time) {
  minutes sum{};
  for (std::size_t i = 0; i < orders.size(); ++i)
    sum += late_by(plan.orders.at(i).times->planned, *end_of_work(time.working, orders.at(i).due->value));
  return sum;
}

/// A turned piece without a bath.
OrderToMake untreated(const Shop& shop, int pieces, const std::string& due) {
  OrderToMake order = wanted(shop, pieces, due);
  order.resin = nullptr;
  order.durations = {};
  return order;
}

std::vector<OrderToMake> lettered(std::vector<OrderToMake> orders) {
  for (std::size_t i = 0; i < orders.size(); ++i) orders.at(i).id = std::string(1, static_cast<char>('a' + i));
  return orders;
}

/// The least lateness of all turns in which orders with a bath each, of different dyes, could be placed.
minutes least_late(const std::vector<OrderToMake>& orders, const Shop& shop, const ShopTime& time) {
  ShopPlan formed;
  Diagnostics said;
  formed.baths = form_baths(orders, shop, time, said);
  for (std::size_t i = 0; i < formed.baths.size(); ++i)
    std::ranges::move(form_loads(formed.baths.at(i), i, orders), std::back_inserter(formed.loads));
  const std::vector<Turn> turns = turns_by_date(formed, orders);
  REQUIRE(turns.size() == orders.size());
  std::vector<std::size_t> places(turns.size());
  std::iota(places.begin(), places.end(), std::size_t{0});
  minutes least = minutes::max();
  do {
    std::vector<Turn> tried;
    for (const std::size_t place : places) tried.push_back(turns.at(place));
    ShopPlan plan = formed;
    place_orders(plan, orders, shop, time, tried);
    least = std::min(least, late(plan, orders, time));
  } while (std::ranges::next_permutation(places).found);
  return least;
}

}  // namespace

TEST_CASE("a dark bath goes before light ones that can wait, where it would be late behind them") {
  const Shop shop = shop_for_baths();
  const ShopTime time = shop_time(shop, at(june_7));
  const auto orders = lettered(
      {wanted(shop, 3, "2027-06-09", "soot"), wanted(shop, 3, "2027-09-30", "amber"), wanted(shop, 3, "2027-09-30")});
  const PlannedInFull alone = planned({orders.front()}, shop);
  REQUIRE(late(alone, {orders.front()}, time) == minutes{0});
  const PlannedInFull plan = planned(orders, shop);
  CHECK(late(plan, orders, time) == minutes{0});
  const auto soot = std::ranges::find(plan.baths, "soot", &PlannedBath::dye);
  for (const PlannedBath& other : plan.baths) CHECK(soot->vacuum->from <= other.vacuum->from);
  CHECK(soot->number == 0);
}

TEST_CASE("an order without treatment waits its turn by date, not until all baths are placed") {
  const Shop shop = shop_for_baths();
  std::vector<OrderToMake> orders{untreated(shop, 4, "2027-06-08")};
  for (int i = 0; i < 3; ++i) orders.push_back(wanted(shop, 8, "2027-09-30"));
  orders = lettered(std::move(orders));
  const PlannedInFull alone = planned({orders.front()}, shop);
  const PlannedInFull plan = planned(orders, shop);
  CHECK(plan.orders.front().times->planned.finish == alone.orders.front().times->planned.finish);
}

TEST_CASE("what a resin is called decides nothing") {
  std::vector<std::vector<Instant>> finishes;
  for (const bool swapped : {false, true}) {
    Shop shop = shop_for_baths();
    ResinFacts other = shop.resins.front();
    shop.resins.front().name.value = swapped ? "Zinnia" : "Aster";
    other.name.value = swapped ? "Aster" : "Zinnia";
    shop.resins.push_back(other);
    auto orders =
        lettered({wanted(shop, 3, "2027-06-11"), wanted(shop, 3, "2027-06-10"), wanted(shop, 3, "2027-06-12")});
    orders.at(1).resin = &shop.resins.back();
    auto& finish = finishes.emplace_back();
    const PlannedInFull plan = planned(orders, shop);
    for (const OrderInShop& order : plan.orders) finish.push_back(order.times->planned.finish);
  }
  CHECK(finishes.at(0) == finishes.at(1));
}

TEST_CASE("where orders are late, no other turn of the blocks makes them less late together") {
  const Shop shop = shop_for_baths();
  const ShopTime time = shop_time(shop, at(june_7));
  const std::vector<std::vector<OrderToMake>> many{
      lettered({wanted(shop, 8, "2027-06-08", "soot"), wanted(shop, 2, "2027-06-08", "amber"),
                wanted(shop, 5, "2027-06-08")}),
      lettered({wanted(shop, 3, "2027-06-08", "soot"), wanted(shop, 9, "2027-06-08", "amber"),
                untreated(shop, 12, "2027-06-08"), untreated(shop, 2, "2027-06-08")}),
      lettered(
          {untreated(shop, 20, "2027-06-07"), untreated(shop, 1, "2027-06-07"), untreated(shop, 6, "2027-06-07")})};
  for (const auto& orders : many) {
    const minutes found = late(planned(orders, shop), orders, time);
    CHECK(found > minutes{0});
    CHECK(found == least_late(orders, shop, time));
  }
}

TEST_CASE("no order is made punctual by leaving it without room") {
  const Shop shop = shop_for_baths();
  // The last one takes longer than three years of the turner: what stands behind it is planned as if alone.
  const auto orders = lettered(
      {untreated(shop, 20, "2027-06-07"), untreated(shop, 20, "2027-06-07"), untreated(shop, 20000, "2027-06-08")});
  const ShopPlan plan = planned(orders, shop);
  for (const std::size_t small : {std::size_t{0}, std::size_t{1}}) CHECK_FALSE(plan.orders.at(small).times->alone);
}

TEST_CASE("baths of one kind keep their order, and what is new stays behind what holds a place") {
  const Shop shop = shop_for_baths();
  auto orders = lettered({wanted(shop, 3, "2027-06-10"), wanted(shop, 3, "2027-06-11", "amber"),
                          untreated(shop, 2, "2027-06-12"), untreated(shop, 2, "2027-06-12")});
  orders.at(3).holds_place = true;
  const std::vector<Turn> turns{{std::nullopt, 3}, {0, 0}, {1, 0}, {2, 1}, {std::nullopt, 2}};
  CHECK_FALSE(moved(turns, 2, 1, orders).has_value());
  CHECK_FALSE(moved(turns, 4, 0, orders).has_value());
  CHECK_FALSE(moved(turns, 0, 1, orders).has_value());
  const auto amber_first = moved(turns, 3, 1, orders);
  REQUIRE(amber_first.has_value());
  CHECK(amber_first->at(1).bath == 2);
  CHECK(amber_first->at(2).bath == 0);
  CHECK(moved(turns, 4, 1, orders)->at(1).order == 2);
}
