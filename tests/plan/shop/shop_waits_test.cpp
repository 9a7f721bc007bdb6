// How long blanks wait behind what they went through with others: each case worked by hand, on the clock of one week.
// The rules are the shop's own words (common practice, no source).

#include <doctest/doctest.h>

#include "diagnose/problem.h"
#include "shared_orders.h"

using namespace blankwright;

namespace {

const std::string scrape = R"(
[[routing]]
name = "Scrape"
who = "keeper"
fixed = "30 min"
longest_wait = "10 min"
)";

const std::string dry_and_cool = R"(
[[routing]]
name = "Dry"
who = "keeper"
planned = "drying"
hands_on = "start"
hands_on_time = "15 min"
may_run_long = true

[[routing]]
name = "Cool"
who = "keeper"
planned = "cooling"
hands_on = "start"
hands_on_time = "5 min"
may_run_long = true
longest_wait = "10 min"
)";

/// The shop works Monday to Friday, 08:00 to 12:00 and 13:00 to 17:00; now is Monday 7 June 2027, 08:00.
Shop shop_that(const std::string& cures, const std::string& tables) {
  const std::string all =
      with(process, "\n[[routing]]\nname = \"Turn\"", scrape + "\n[[routing]]\nname = \"Turn\"") + tables;
  return shop_with(with(all, "planned = \"cure\"\nhands_on_time = \"15 min\"\nmay_run_long = true",
                        "planned = \"cure\"\nhands_on = \"start\"\nhands_on_time = \"15 min\"\n" + cures));
}

Interval cured(const PlannedInFull& plan, std::size_t order) {
  return plan.orders.at(order).times->planned.operations.at(3).runs.back().at;
}
Interval scraped(const PlannedInFull& plan, std::size_t order) {
  return plan.orders.at(order).times->planned.operations.at(4).runs.back().at;
}
bool tells_a_wait(const PlannedInFull& plan, std::size_t order) {
  return std::ranges::any_of(plan.orders.at(order).said.all(),
                             [](const Diagnostic& one) { return one.problem == Problem::wait_broken; });
}

OrderToMake cured_for(const Shop& shop, Duration cure, const std::string& id = "A") {
  OrderToMake order = wanted(shop, 2, "2027-07-30");
  order.id = id;
  order.durations.cure = cure;
  return order;
}

/// Two blanks of it that were in a bath and cure since seven o'clock.
OrderToMake curing(const Shop& shop, Duration cure) {
  OrderToMake order = cured_for(shop, cure);
  order.started = 2;
  order.pieces = 0;
  order.resin = nullptr;
  BlankGroup group{.at = {.next = 3, .since = june(7, "07:00"), .begun = june(7, "07:00")}, .pieces = 2};
  group.bath = "B1";
  group.load = "L1";
  group.oven = "oven";
  order.under_way = {group};
  return order;
}

}  // namespace

TEST_CASE("a cure ends so late that what comes behind it need not wait: it runs on, or begins later") {
  // Sawn by 08:20 on Monday, under vacuum until 14:20, in the bath until somebody takes them out at 08:15. Four hours
  // of cure would end at 12:15, and whoever scrapes does so at 13:00; ten minutes before is 12:50.
  const Shop runs_on = shop_that("may_run_long = true", "");
  const PlannedInFull plan = planned({cured_for(runs_on, 4 * hour)}, runs_on);
  CHECK(cured(plan, 0) == Interval{june(8, "08:15"), june(8, "12:50")});
  CHECK(scraped(plan, 0) == Interval{june(8, "13:00"), june(8, "13:30")});
  const Shop fixed = shop_that("", "");
  const PlannedInFull later = planned({cured_for(fixed, 4 * hour)}, fixed);
  CHECK(cured(later, 0) == Interval{june(8, "08:50"), june(8, "12:50")});
  CHECK(scraped(later, 0) == Interval{june(8, "13:00"), june(8, "13:30")});
  CHECK_FALSE(tells_a_wait(later, 0));
}

TEST_CASE("where one keeper cannot scrape two orders of a bath in time, one is in time and the other is told") {
  const Shop shop = shop_that("may_run_long = true", "");
  const PlannedInFull plan = planned({cured_for(shop, 4 * hour, "A"), cured_for(shop, 4 * hour, "B")}, shop);
  REQUIRE(plan.baths.size() == 1);
  CHECK(cured(plan, 0) == Interval{june(8, "08:15"), june(8, "12:50")});
  CHECK(scraped(plan, 0).from == june(8, "13:00"));
  CHECK(scraped(plan, 1).from == june(8, "13:30"));
  CHECK_FALSE(tells_a_wait(plan, 0));
  CHECK(tells_a_wait(plan, 1));
}

TEST_CASE("a cure that goes on ends when somebody scrapes, as long as it may last") {
  // Since 07:00, five hours: until noon. It may go on to 12:50; where it may last 5 h 30 min at most, it may not.
  const Shop runs_on = shop_that("may_run_long = true", "");
  const PlannedInFull plan = planned({curing(runs_on, 5 * hour)}, runs_on);
  CHECK(cured(plan, 0) == Interval{june(7, "07:00"), june(7, "12:50")});
  CHECK(scraped(plan, 0) == Interval{june(7, "13:00"), june(7, "13:30")});
  CHECK_FALSE(tells_a_wait(plan, 0));
  const Shop bounded = shop_that("may_run_long = true\nmost = \"5 h 30 min\"", "");
  const PlannedInFull told = planned({curing(bounded, 5 * hour)}, bounded);
  CHECK(cured(told, 0) == Interval{june(7, "07:00"), june(7, "12:00")});
  CHECK(scraped(told, 0).from == june(7, "13:00"));
  CHECK(tells_a_wait(told, 0));
}

TEST_CASE("orders whose wet blanks cure in two loads of one bath go on each behind its own load") {
  // The oven takes 5 blanks of 40 × 130 mm: the six of B1 go in as three and three. A's cure from 08:00 to 11:00, B's
  // from then to 14:00, and the keeper is at the oven for a quarter of an hour at both ends of each.
  const Shop shop = shop_with(with(process, "\n[[routing]]\nname = \"Turn\"",
                                   with(scrape, "10 min", "1 h") + "\n[[routing]]\nname = \"Turn\""));
  std::vector<OrderToMake> orders;
  for (const char* id : {"A", "B"}) {
    OrderToMake& order = orders.emplace_back(curing(shop, 3 * hour));
    order.id = id;
    BlankGroup& wet = order.under_way.front();
    wet.at.begun.reset();
    wet.load.clear();
    wet.pieces = 3;
  }
  const PlannedInFull plan = planned(orders, shop);
  CHECK(cured(plan, 0) == Interval{june(7, "08:00"), june(7, "11:00")});
  CHECK(scraped(plan, 0) == Interval{june(7, "11:15"), june(7, "11:45")});
  CHECK(cured(plan, 1) == Interval{june(7, "11:00"), june(7, "14:00")});
  CHECK(scraped(plan, 1) == Interval{june(7, "14:00"), june(7, "14:30")});
}

TEST_CASE("a vacuum that nobody ends in time goes on longer than it may, and that is told") {
  // Since Sunday, 22:00: ten hours when the shop opens. It may last nine.
  const auto told_with = [](const std::string& most) {
    const Shop shop = shop_with(with(process, "planned = \"vacuum\"\n",
                                     "planned = \"vacuum\"\nhands_on = \"ends\"\nmost = \"" + most + "\"\n"));
    OrderToMake order = curing(shop, 3 * hour);
    BlankGroup& group = order.under_way.front();
    group = {.at = {.next = 1, .since = june(6, "22:00"), .begun = june(6, "22:00")}, .pieces = 2, .bath = "B1"};
    group.vessel = "pot";
    const PlannedInFull plan = planned({order}, shop);
    const auto& vacuum = plan.orders.at(0).times->planned.operations.at(1);
    CHECK(vacuum.runs.back().at == Interval{june(6, "22:00"), june(7, "08:15")});
    return std::ranges::any_of(plan.orders.at(0).said.all(),
                               [](const Diagnostic& one) { return one.problem == Problem::runs_too_long; });
  };
  CHECK(told_with("9 h"));
  CHECK_FALSE(told_with("11 h"));
}

TEST_CASE("what dries while others are sawn cools when it is out, and does not wait for them") {
  const auto shop_that_waits = [](const std::string& longest_wait) {
    const std::string oven = with(dry_and_cool, "longest_wait = \"10 min\"\n", longest_wait);
    return shop_with(with(process, "\n[[routing]]\nname = \"Vacuum\"", oven + "\n[[routing]]\nname = \"Vacuum\""));
  };
  const Shop shop = shop_that_waits("longest_wait = \"10 min\"\n");
  OrderToMake order = wanted(shop, 4, "2027-07-30");
  order.id = "A";
  order.started = 4;
  order.durations.drying = 5 * hour;
  order.durations.cooling = 2 * hour;
  for (std::uint32_t i = 0; i < 2; ++i) {
    BlankGroup& group = order.waiting_pieces.emplace_back();
    group.at = {.next = 1, .since = june(7, "07:00"), .begun = june(7, "07:00")};
    group.pieces = 1;
    group.load = "D1";
    group.oven = "oven";
    group.lowest = BlankId::nth(i);
  }
  const PlannedInFull plan = planned({order}, shop);
  const auto& done = plan.orders.at(0).times->planned.operations;
  // Two dry since 07:00, five hours, and cool from 13:00 on at the latest: they come out at 12:50. The two that are
  // sawn until 08:20 go in then, until 17:50; the keeper is there again at 08:00, and they come out ten minutes
  // before.
  REQUIRE(done.at(1).runs.size() == 2);
  CHECK(done.at(1).runs.at(0).at == Interval{june(7, "07:00"), june(7, "12:50")});
  CHECK(done.at(1).runs.at(1).at == Interval{june(7, "13:05"), june(8, "07:50")});
  REQUIRE(done.at(2).runs.size() == 2);
  CHECK(done.at(2).runs.at(0).at == Interval{june(7, "13:00"), june(7, "15:00")});
  CHECK(done.at(2).runs.at(0).blanks == 2);
  CHECK(done.at(2).runs.at(1).at == Interval{june(8, "08:00"), june(8, "10:00")});
  CHECK(done.at(3).start == june(8, "10:00"));
  // Where it may wait as long as it likes it comes out at noon, and cools by itself all the same.
  const Shop patient = shop_that_waits("");
  order.resin = &patient.resins.front();
  order.oven = &patient.ovens.front();
  const PlannedInFull by_itself = planned({order}, patient);
  const auto& cooled = by_itself.orders.at(0).times->planned.operations.at(2).runs;
  REQUIRE(cooled.size() == 2);
  CHECK(cooled.at(0).at == Interval{june(7, "13:00"), june(7, "15:00")});
  CHECK(cooled.at(0).blanks == 2);
  CHECK(cooled.at(1).at == Interval{june(8, "08:00"), june(8, "10:00")});
  CHECK(cooled.at(1).blanks == 2);
}
