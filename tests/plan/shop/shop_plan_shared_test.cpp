// Several orders in one run: one person, one vessel, one oven. Expected values by hand and by rule.

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <vector>

#include "diagnose/problem.h"
#include "random_numbers.h"
#include "shared_orders.h"

using namespace blankwright;

TEST_CASE("an order is cured in the loads that its blanks lie in, and goes on after the last of them") {
  const Shop shop = shop_for_baths();
  const ShopPlan plan = planned({wanted(shop, 3, "2027-07-30"), wanted(shop, 4, "2027-07-02")}, shop);
  REQUIRE(plan.loads.size() > 1);
  for (std::size_t order = 0; order < 2; ++order) {
    CAPTURE(order);
    std::vector<Interval> cures;
    int blanks = 0;
    for (const PlannedLoad& load : plan.loads) {
      const auto share = std::ranges::find(load.shares, order, &BlankShare::order);
      if (share == load.shares.end()) continue;
      cures.push_back(*load.cure);
      blanks += share->total();
    }
    CHECK(blanks == (order == 0 ? 3 : 4));
    const auto& done = plan.orders.at(order).times->planned.operations;
    std::vector<Interval> runs;
    int cured = 0;
    for (const PlannedRun& run : done.at(3).runs) {
      runs.push_back(run.at);
      cured += run.blanks;
      REQUIRE(run.load);
      CHECK(run.resource == "oven");
      CHECK(run.bath == plan.loads.at(*run.load).bath);
    }
    CHECK(runs == cures);
    CHECK(cured == blanks);
    CHECK(done.at(3).end == cures.back().to);
    CHECK(done.at(4).start >= cures.back().to);
  }
}

TEST_CASE("loads of the oven take all blanks of a bath, and no more at a time than lie in it") {
  const Shop shop = shop_for_baths();
  const ShopPlan plan = planned({wanted(shop, 9, "2027-09-30"), wanted(shop, 5, "2027-09-30")}, shop);
  int in_loads = 0;
  for (const PlannedLoad& load : plan.loads) {
    int here = 0;
    for (const BlankShare& share : load.shares) here += share.total();
    CHECK(here <= load.layout.capacity());
    CHECK(here > 0);
    in_loads += here;
  }
  CHECK(in_loads == 14);
}

TEST_CASE("the loads of a bath are cured one after the other, each in its own time") {
  // 5 h that somebody has to begin and end at work: two of them in one go would end in the evening.
  std::string text = process;
  text = with(text, "width = \"300 mm\"\ndepth = \"300 mm\"\nheight = \"300 mm\"",
              "width = \"300 mm\"\ndepth = \"300 mm\"\nheight = \"130 mm\"");
  text = with(text, "planned = \"cure\"\nhands_on_time = \"15 min\"\nmay_run_long = true",
              "planned = \"cure\"\nhands_on = \"ends\"\nhands_on_time = \"15 min\"");
  const Shop shop = shop_with(text);
  OrderToMake order = wanted(shop, 9, "2027-09-30");
  order.durations.cure = 5 * hour;
  const ShopPlan plan = planned({order}, shop);
  REQUIRE(plan.orders.front().said.errors() == 0);
  REQUIRE(plan.loads.size() > plan.baths.size());
  std::vector<Interval> cures;
  for (const PlannedLoad& load : plan.loads) {
    REQUIRE(load.cure);
    CHECK(load.cure->from >= plan.baths.at(load.bath).soak->to);
    CHECK(load.cure->to - load.cure->from == std::chrono::hours{5});
    cures.push_back(*load.cure);
  }
  check_apart(cures);
  const PlacedTimes& times = *plan.orders.front().times;
  REQUIRE(times.planned.operations.size() == times.routing.size());
  const PlannedOperation& cure = times.planned.operations.at(3);
  CHECK(cure.start == plan.loads.front().cure->from);
  CHECK(cure.end == plan.loads.back().cure->to);
  CHECK(cure.runs.size() == plan.loads.size());
  CHECK(times.planned.operations.at(4).start >= cure.end);
}

TEST_CASE("what is dried in several loads cools load by load, each as soon as it is out") {
  std::string text =
      with(process, "[[routing]]\nname = \"Vacuum\"",
           "[[routing]]\nname = \"Dry\"\nwho = \"keeper\"\nplanned = \"drying\"\nhands_on = \"ends\"\n"
           "may_run_long = true\n\n[[routing]]\nname = \"Cool\"\nwho = \"keeper\"\nplanned = \"cooling\"\n"
           "hands_on = \"start\"\nlongest_wait = \"10 min\"\n\n[[routing]]\nname = \"Vacuum\"");
  text = with(text, "height = \"300 mm\"\ngap", "height = \"130 mm\"\ngap");
  const Shop shop = shop_with(text);
  OrderToMake order = wanted(shop, 9, "2027-09-30");
  order.durations.drying = 26 * hour;
  order.durations.cooling = 2 * hour;
  const ShopPlan plan = planned({order}, shop);
  const auto& done = plan.orders.front().times->planned.operations;
  const PlannedOperation &dry = done.at(1), &cool = done.at(2);
  REQUIRE(dry.runs.size() > 1);
  CHECK(cool.runs.size() == dry.runs.size());
  // Hands-on at both ends of each drying and at the start of each cooling: a load is out when its cooling begins.
  REQUIRE(dry.hands_on().size() == 2 * dry.runs.size());
  REQUIRE(cool.hands_on().size() == cool.runs.size());
  for (std::size_t load = 0; load < cool.hands_on().size(); ++load) {
    const auto waited = cool.hands_on().at(load).from - dry.hands_on().at(2 * load + 1).to;
    CHECK(waited >= std::chrono::minutes{0});
    CHECK(waited <= std::chrono::minutes{10});
  }
}

TEST_CASE("what is done to witnesses alone takes time for them, and what comes after for the others") {
  const std::string text =
      with(process, "[[routing]]\nname = \"Turn\"",
           "[[routing]]\nname = \"Cut open\"\nwho = \"keeper\"\nper_piece = \"15 min\"\nonly_witnesses = true\n\n"
           "[[routing]]\nname = \"Turn\"");
  const Shop shop = shop_with(text);
  OrderToMake order = wanted(shop, 3, "2027-09-30");
  const ShopPlan without = planned({order}, shop);
  CHECK(without.orders.front().times->routing.size() == 5);
  order.witnesses = 1;
  order.durations.witnessed = true;
  const OrderTimes times = planned({order}, shop).in_full.front();
  REQUIRE(times.operations.size() == 6);
  CHECK(times.operations.at(0).length / minute == doctest::Approx(4 * 10));
  CHECK(times.operations.at(4).length / minute == doctest::Approx(15));
  CHECK(times.operations.at(5).length / minute == doctest::Approx(3 * 30));
}

TEST_CASE("an order of which one bath cannot be planned is refused, not planned without it") {
  // An hour a piece with somebody in the shop: a full bath is longer at it than any stretch of work, the rest is not.
  const std::string slow =
      "[[routing]]\nname = \"Wire\"\nwho = \"keeper\"\nper_piece = \"1 h\"\nhands_on = \"ends\"\n\n";
  const Shop shop = shop_with(slow + process);
  const Shop usual = shop_for_baths();
  const int in_a_bath = planned({wanted(usual, 20, "2027-09-30")}, usual).baths.front().shares.front().count;
  const ShopPlan plan = planned({wanted(shop, in_a_bath + 1, "2027-09-30")}, shop);
  REQUIRE(plan.baths.size() == 2);
  CHECK(!plan.baths.front().vacuum);
  CHECK(plan.baths.back().vacuum);
  CHECK(!plan.orders.front().times);
  REQUIRE(plan.orders.front().said.errors() == 1);
  CHECK(plan.orders.front().said.all().front().message_text().find("\"Wire\"") != std::string::npos);
}

TEST_CASE("nobody is in two places, and no vessel or oven is used twice at once") {
  const Shop shop = shop_for_baths();
  RandomNumbers dice{7};
  for (int round = 0; round < 12; ++round) {
    std::vector<OrderToMake> orders;
    const int count = dice.whole(1, 6);
    for (int i = 0; i < count; ++i) {
      const char* dues[] = {"2027-07-02", "2027-08-13", "2027-09-30"};
      const std::optional<std::string> dyes[] = {std::nullopt, "amber", "soot"};
      orders.push_back(wanted(shop, dice.whole(1, 12), dues[dice.whole(0, 2)], dyes[dice.whole(0, 2)]));
      if (dice.whole(1, 4) == 1) orders.back().resin = nullptr, orders.back().durations = {};
    }
    const PlannedInFull plan = planned(orders, shop);
    std::vector<Interval> pot;
    std::map<std::string, std::vector<Interval>> people;
    for (const PlannedBath& bath : plan.baths) {
      REQUIRE((bath.vacuum && bath.soak));
      pot.push_back({bath.vacuum->from, bath.soak->to});
    }
    check_apart(pot);
    for (std::size_t i = 0; i < orders.size(); ++i) {
      REQUIRE(plan.orders.at(i).times);
      if (orders.at(i).resin != nullptr) CHECK(count_of(plan, i) == orders.at(i).pieces);
      const OrderTimes& times = plan.in_full.at(i);
      for (std::size_t k = 0; k < times.operations.size(); ++k) {
        for (const HandsOnTime& hands : times.planned.operations.at(k).hands_on()) {
          auto& all = people[hands.who];
          const Interval at{hands.from, hands.to};
          if (std::ranges::find(all, at) == all.end()) all.push_back(at);
        }
        if (k > 0) CHECK(times.planned.operations.at(k - 1).end <= times.planned.operations.at(k).end);
      }
    }
    for (const auto& [who, hands] : people) {
      CAPTURE(who);
      check_apart(hands);
    }
  }
}

TEST_CASE("orders that three years do not hold are planned as if alone, with a warning") {
  const Shop shop = shop_for_baths();
  std::vector<OrderToMake> orders(40, wanted(shop, 5000, "2027-07-02"));
  for (OrderToMake& order : orders) order.resin = nullptr, order.durations = {};
  const ShopPlan plan = planned(orders, shop);
  CHECK(plan.orders.front().said.all().size() == 1);  // late, but it has its place
  const auto& last = plan.orders.back();
  REQUIRE(last.times);
  CHECK(std::ranges::any_of(last.said.all(),
                            [](const Diagnostic& d) { return d.problem == Problem::calendar_too_full; }));
}

TEST_CASE("wood that is dry already shares a bath with wood that is not: each goes through its own operations") {
  // By rule: the squared order is due first and leads the bath; the other one's blanks are dried and cooled before
  // it, and nothing of that is the squared order's.
  const std::string dry =
      "\n[[routing]]\nname = \"Dry\"\nwho = \"keeper\"\nplanned = \"drying\"\nhands_on_time = \"15 min\"\n"
      "may_run_long = true\n\n[[routing]]\nname = \"Cool\"\nwho = \"keeper\"\nplanned = \"cooling\"\n"
      "hands_on_time = \"5 min\"\nmay_run_long = true\n";
  const Shop shop =
      shop_with(with(process, "\n[[routing]]\nname = \"Vacuum\"", dry + "\n[[routing]]\nname = \"Vacuum\""));
  OrderToMake squared = wanted(shop, 2, "2027-07-02");
  OrderToMake sawn = wanted(shop, 3, "2027-07-30");
  sawn.id = "B";
  sawn.durations.drying = 8 * hour;
  sawn.durations.cooling = 2 * hour;
  const PlannedInFull plan = planned(in_hand({squared, sawn}), shop);
  REQUIRE(plan.baths.size() == 1);
  const auto& of_squared = plan.orders.at(0).times->planned.operations;
  const auto& of_sawn = plan.orders.at(1).times->planned.operations;
  REQUIRE(of_squared.size() == 5);
  REQUIRE(of_sawn.size() == 7);
  REQUIRE(of_sawn.at(1).runs.size() == 1);
  CHECK(of_sawn.at(1).runs.front().blanks == 3);
  CHECK(of_sawn.at(1).end - of_sawn.at(1).start >= std::chrono::hours{8});
  CHECK(of_sawn.at(2).end - of_sawn.at(2).start >= std::chrono::hours{2});
  CHECK(of_squared.at(0).start == of_sawn.at(0).start);
  for (std::size_t step = 1; step < 4; ++step) {
    CAPTURE(step);
    CHECK(of_squared.at(step).start == of_sawn.at(step + 2).start);
    CHECK(of_squared.at(step).runs.front().blanks == 2);
  }
  CHECK(of_squared.at(1).start >= of_sawn.at(2).end);
}

TEST_CASE("a blank that is squared already is not dried, bathed or cured again") {
  const std::string job = awl() + "\n[blank]\nsection = \"45 mm\"\nlength = \"130 mm\"\nstate = \"squared\"\n";
  const Shop shop = shop_with("[[routing]]\nname = \"Dry\"\nwho = \"keeper\"\nplanned = \"drying\"\n" + process);
  const Order order = order_of(job);
  Diagnostics said;
  const auto plan = plan_order(order, shop, Record{}, said);
  REQUIRE_MESSAGE(plan.has_value(), rendered(said));
  const ShopPlan together = planned({order_to_make(order, shop, *plan, Record{})}, shop);
  REQUIRE(together.orders.front().times);
  for (const OperationFacts* facts : together.orders.front().times->routing) CHECK_FALSE(facts->planned.has_value());
}
