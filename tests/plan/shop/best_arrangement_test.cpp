// In which sequence blocks are placed, and who shares baths. Expected values by rule, and by trying every turn.

#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>
#include <set>
#include <vector>

#include "plan/shop/baths.h"
#include "plan/shop/best_arrangement.h"
#include "plan/shop/kept_plan.h"
#include "plan/shop/loads.h"
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

/// The least lateness of all turns in which whole orders could be placed that have a bath each or none.
minutes least_late(const std::vector<OrderToMake>& orders, const Shop& shop, const ShopTime& time) {
  ShopPlan formed;
  Diagnostics said;
  formed.baths = form_baths(orders, {}, shop, time, said);
  for (std::size_t i = 0; i < formed.baths.size(); ++i)
    std::ranges::move(form_loads(formed.baths.at(i), i, orders), std::back_inserter(formed.loads));
  const Sharing by_rule;
  const Planner planner{orders, shop, time, by_rule, formed};
  ChainPlacer placer{planner.chains()};
  const ToPlan given = to_plan(orders, shop, time);
  std::vector<std::size_t> turn(planner.chains().size());
  std::iota(turn.begin(), turn.end(), std::size_t{0});
  minutes least = minutes::max();
  do {
    Placement now = planner.begin(placer);
    for (const std::size_t chain : turn) {
      for (std::size_t block = 0; block < planner.chains()[chain].blocks(); ++block) placer.place_next(chain, now);
    }
    least = std::min(least, punctuality_of(now, given.dues).late);
  } while (std::ranges::next_permutation(turn).found);
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
  const auto waits = [&](const PlannedBath& other) { return other.vacuum->from > soot->vacuum->from; };
  CHECK(std::ranges::any_of(plan.baths, waits));
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

TEST_CASE("where orders are late, no turn of whole baths and orders makes them less late together") {
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
    CHECK(found <= least_late(orders, shop, time));
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

TEST_CASE("the sequence is the same whenever it is looked for") {
  const Shop shop = shop_for_baths();
  const auto orders = lettered({wanted(shop, 8, "2027-06-08", "soot"), wanted(shop, 2, "2027-06-08", "amber"),
                                wanted(shop, 5, "2027-06-08"), untreated(shop, 3, "2027-06-09")});
  const auto finishes = [&] {
    std::vector<Instant> all;
    for (const OrderInShop& order : planned(orders, shop).orders) all.push_back(order.times->planned.finish);
    return all;
  };
  CHECK(finishes() == finishes());
}

TEST_CASE("what is new takes no place of what holds one, however late it is") {
  const Shop shop = shop_for_baths();
  auto orders = lettered({wanted(shop, 8, "2027-09-30"), untreated(shop, 8, "2027-09-30")});
  for (OrderToMake& order : orders) order.holds_place = true;
  const PlannedInFull before = planned(orders, shop);
  orders.push_back(wanted(shop, 8, "2027-06-07", "amber"));
  orders.push_back(untreated(shop, 20, "2027-06-07"));
  orders = lettered(std::move(orders));
  const PlannedInFull plan = planned(orders, shop);
  for (const std::size_t i : {std::size_t{0}, std::size_t{1}})
    CHECK(plan.orders.at(i).times->planned.finish == before.orders.at(i).times->planned.finish);
}

TEST_CASE("two orders of one colour that fit two baths take two, where one of them is late behind the other") {
  // The pot takes 15 blanks: the urgent order's eight would be sawn, cured and waited for with seven of the other.
  const Shop shop = shop_for_baths();
  const auto one_bath = lettered({wanted(shop, 8, "2027-09-30"), wanted(shop, 7, "2027-09-30")});
  auto urgent = one_bath;
  const PlannedInFull alone = planned({urgent.front()}, shop);
  const auto finish = alone.orders.front().times->planned.finish;
  urgent.front().due->value = date_of(shop.zone.value, finish);
  const PlannedInFull plan = planned(urgent, shop);
  CHECK(plan.baths.size() == 2);
  CHECK(plan.orders.front().times->planned.finish == finish);
}

TEST_CASE("what was printed stays as it is planned, also what the rule would have planned otherwise") {
  const Shop shop = shop_for_baths();
  auto orders = lettered({wanted(shop, 20, "2027-06-20"), wanted(shop, 7, "2027-06-09"),
                          wanted(shop, 3, "2027-06-30", "soot"), untreated(shop, 9, "2027-06-12")});
  const PlannedInFull first = planned(orders, shop);
  for (std::size_t i = 0; i < orders.size(); ++i) {
    orders.at(i).holds_place = true;
    orders.at(i).planned = kept_plan(*first.orders.at(i).times);
  }
  const PlannedInFull again = planned(orders, shop);
  CHECK(again.baths.size() == first.baths.size());
  for (std::size_t i = 0; i < orders.size(); ++i) {
    CAPTURE(i);
    CHECK(kept_plan(*again.orders.at(i).times) == orders.at(i).planned);
  }
}

TEST_CASE("what was printed late goes before what was printed sooner and can wait, resin and all") {
  // Ten blanks fill the pot for the most part, and the second bath takes what the first one leaves over.
  const Shop shop = shop_for_baths();
  auto orders = lettered({wanted(shop, 10, "2027-09-30"), wanted(shop, 10, "2027-09-30")});
  const Instant alone = planned({orders.back()}, shop).orders.front().times->planned.finish;
  orders.back().due->value = date_of(shop.zone.value, alone);
  for (std::size_t printed = 0; printed < orders.size(); ++printed) {
    const std::vector<OrderToMake> so_far{orders.begin(), orders.begin() + static_cast<std::ptrdiff_t>(printed) + 1};
    const PlannedInFull plan = planned(so_far, shop);
    orders.at(printed).holds_place = true;
    orders.at(printed).planned = kept_plan(*plan.orders.at(printed).times);
  }
  const PlannedInFull plan = planned(orders, shop);
  REQUIRE(plan.baths.size() == 2);
  CHECK(plan.orders.back().times->planned.finish == alone);
  CHECK(plan.orders.front().times->planned.finish > alone);
}

TEST_CASE("an oven does not stand empty over a weekend for some minutes of what comes then") {
  // On Thursday, 10 June, a's blanks go into the pot, and by 2:20 on Sunday they have soaked: their cure begins on
  // Monday morning. What b dries from Thursday on is dry on Monday too, some minutes into that cure.
  const std::string dry =
      "\n[[routing]]\nname = \"Dry\"\nwho = \"keeper\"\nplanned = \"drying\"\nhands_on_time = \"15 min\"\n"
      "may_run_long = true\n";
  const Shop shop =
      shop_with(with(process, "\n[[routing]]\nname = \"Vacuum\"", dry + "\n[[routing]]\nname = \"Vacuum\""));
  auto orders = lettered({wanted(shop, 2, "2027-09-30"), wanted(shop, 3, "2027-09-30", "soot")});
  orders.at(0).durations.soak = 60 * hour;
  orders.at(1).durations.drying = 94.5 * hour;
  const ShopTime time = shop_time(shop, june(10, "08:00"));
  const auto drying_and_cure = [&](const std::vector<OrderToMake>& some) {
    Diagnostics said;
    const ShopPlan plan = plan_shop(some, shop, time, said);
    return std::pair{plan.orders.at(1).times->planned.operations.at(1),
                     plan.orders.at(0).times->planned.operations.at(3)};
  };
  // By the rule alone the light bath is placed to its end, and the oven is not to be had until its cure is over.
  const auto [then, fixed] = drying_and_cure(in_hand(orders));
  REQUIRE(date_of(shop.zone.value, fixed.start) == date_of(shop.zone.value, june(14, "08:00")));
  REQUIRE(then.start >= fixed.end);
  const auto [drying, cure] = drying_and_cure(orders);
  CHECK(drying.start < june(11, "08:00"));
  CHECK(cure.start >= drying.end);
  CHECK(date_of(shop.zone.value, cure.start) == date_of(shop.zone.value, fixed.start));
}
