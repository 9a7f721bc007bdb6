// Several orders in one run: baths and loads, one person, one vessel, one oven. Expected values by hand and by rule.

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <vector>

#include "plan/shop_plan.h"
#include "planning.h"
#include "random_numbers.h"
#include "working_week.h"

using namespace blankwright;

namespace {

const std::string process = R"(
[[vessels]]
name = "pot"
diameter = "200 mm"
height = "400 mm"
usable_height = "250 mm"

[[resins]]
name = "Clear"
density = "1.04 g/cm3"
dyes = ["amber", "soot"]
cure_air = "93 °C"
cure_hold = "1 h"

[[ovens]]
name = "oven"
width = "300 mm"
depth = "300 mm"
height = "300 mm"
gap = "20 mm"
clearance = "40 mm"
unattended = true

[pump]
unattended = true

[[routing]]
name = "Saw"
who = "keeper"
per_piece = "10 min"

[[routing]]
name = "Vacuum"
who = "keeper"
planned = "vacuum"
hands_on_time = "15 min"
may_run_long = true

[[routing]]
name = "Soak"
who = "keeper"
planned = "soak"
hands_on_time = "15 min"
may_run_long = true

[[routing]]
name = "Cure"
who = "keeper"
planned = "cure"
hands_on_time = "15 min"
may_run_long = true

[[routing]]
name = "Turn"
who = "turner"
per_piece = "30 min"
)";

Shop shop_for_baths() {
  const std::string shop = order_file("shop.toml");
  return shop_of(shop.substr(0, shop.find("[[routing]]")) + process);
}

OrderToMake wanted(const Shop& shop, int pieces, const std::string& due, std::optional<std::string> dye = {}) {
  OrderToMake order;
  order.pieces = pieces;
  order.due = Given<Date>{parse_date(due).value(), Origin::job, {}, {}};
  order.resin = &shop.resins.front();
  order.dye = std::move(dye);
  order.darkness = !order.dye ? 0 : *order.dye == "amber" ? 1 : 2;
  order.blank = {1, 40 * mm, 130 * mm, 130 * gram, 50 * gram, 110 * gram};
  order.sawn_section = 43 * mm;
  order.sawn_length = 132 * mm;
  order.oven = &shop.ovens.front();
  order.durations = {.treated = true, .vacuum = 6 * hour, .soak = 12 * hour, .cure = 3 * hour};
  return order;
}

ShopPlan planned(const std::vector<OrderToMake>& orders, const Shop& shop) {
  Diagnostics said;
  const ShopTime time = shop_time(shop, at("2027-06-07T08:00:00+02:00"));
  ShopPlan plan = plan_shop(orders, shop, time, said);
  CHECK(said.all().empty());
  for (std::size_t i = 0; i < orders.size(); ++i) complete_times(i, plan, orders, shop, time);
  return plan;
}

int count_of(const ShopPlan& plan, std::size_t order) {
  int sum = 0;
  for (const PlannedBath& bath : plan.baths) {
    for (const BlankShare& share : bath.shares) sum += share.order == order ? share.total() : 0;
  }
  return sum;
}

void check_apart(std::vector<Interval> all) {
  std::ranges::sort(all, {}, &Interval::from);
  for (std::size_t i = 1; i < all.size(); ++i) CHECK(all.at(i - 1).to <= all.at(i).from);
}

}  // namespace

TEST_CASE("orders of one resin and dye share a bath, the most urgent first in it") {
  const Shop shop = shop_for_baths();
  const ShopPlan plan = planned({wanted(shop, 3, "2027-07-30"), wanted(shop, 4, "2027-07-02")}, shop);
  REQUIRE(plan.baths.size() == 1);
  REQUIRE(plan.baths.front().shares.size() == 2);
  CHECK(plan.baths.front().shares.at(0).order == 1);
  CHECK(plan.baths.front().shares.at(1).order == 0);
  // Both leave the bath at one time; turning is the turner's alone, so the urgent order is done first.
  CHECK(plan.orders.at(0).times->planned.operations.at(2).end ==
        plan.orders.at(1).times->planned.operations.at(2).end);
  CHECK(plan.orders.at(1).times->planned.finish <= plan.orders.at(0).times->planned.operations.at(4).start);
  // Sawing is that of all seven blanks: 70 min.
  CHECK(plan.orders.at(0).times->operations.at(0).length / minute == doctest::Approx(70));
}

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

TEST_CASE("every bath of orders that want a witness has one, and an order in it has no more than it was to have") {
  const Shop shop = shop_for_baths();
  for (const int many : {2, 5, 8, 11, 14}) {
    CAPTURE(many);
    OrderToMake first = wanted(shop, many, "2027-07-02");
    OrderToMake second = wanted(shop, 9, "2027-07-30");
    OrderToMake third = wanted(shop, 4, "2027-08-30");
    for (OrderToMake* order : {&first, &second, &third}) {
      order->witnesses = 1;
      order->witnesses = static_cast<int>(planned({*order}, shop).baths.size());
    }
    const ShopPlan plan = planned({first, second, third}, shop);
    std::vector<int> witnesses(3, 0);
    for (const PlannedBath& bath : plan.baths) {
      CHECK(std::ranges::any_of(bath.shares, [](const BlankShare& share) { return share.witness.has_value(); }));
      for (const BlankShare& share : bath.shares) witnesses.at(share.order) += share.witness ? 1 : 0;
    }
    CHECK(witnesses == std::vector<int>{first.witnesses, second.witnesses, third.witnesses});
    for (std::size_t order = 0; order < 3; ++order) {
      CHECK(count_of(plan, order) == std::vector{first, second, third}.at(order).pieces + witnesses.at(order));
    }
  }
}

TEST_CASE("dyes are kept apart, and light goes before dark whatever is urgent") {
  const Shop shop = shop_for_baths();
  const ShopPlan plan = planned(
      {wanted(shop, 3, "2027-07-02", "soot"), wanted(shop, 3, "2027-07-30", "amber"), wanted(shop, 3, "2027-07-30")},
      shop);
  REQUIRE(plan.baths.size() == 3);
  CHECK(plan.baths.at(0).dye.empty());
  CHECK(plan.baths.at(1).dye == "amber");
  CHECK(plan.baths.at(2).dye == "soot");
  for (std::size_t i = 1; i < 3; ++i) {
    REQUIRE((plan.baths.at(i - 1).soak && plan.baths.at(i).vacuum));
    CHECK(plan.baths.at(i - 1).soak->to <= plan.baths.at(i).vacuum->from);
  }
}

TEST_CASE("an order too large for the vessel goes into several baths, none of its blanks twice and none left out") {
  const Shop shop = shop_for_baths();
  OrderToMake many = wanted(shop, 20, "2027-09-30");
  many.witnesses = 3;
  const ShopPlan plan = planned({many}, shop);
  REQUIRE(plan.baths.size() > 1);
  std::vector<int> seen(20, 0);
  int witnesses = 0;
  for (const PlannedBath& bath : plan.baths) {
    CHECK(bath.bath.layout.capacity() >= bath.shares.front().total());
    for (const BlankShare& share : bath.shares) {
      for (int n = share.first; n < share.first + share.count; ++n) ++seen.at(static_cast<std::size_t>(n));
      witnesses += share.witness ? 1 : 0;
    }
  }
  CHECK(std::ranges::all_of(seen, [](int times) { return times == 1; }));
  CHECK(witnesses == std::min<int>(3, static_cast<int>(plan.baths.size())));
  // The order's vacuum lasts from the first bath's to the last one's; its finish follows the last cure.
  CHECK(plan.orders.front().times->planned.operations.at(1).start == plan.baths.front().vacuum->from);
  CHECK(plan.orders.front().times->planned.operations.at(1).end == plan.baths.back().vacuum->to);
}

TEST_CASE("what is left over of a bath goes into the next one of its kind") {
  const Shop shop = shop_for_baths();
  const ShopPlan plan = planned({wanted(shop, 30, "2027-09-30")}, shop);
  REQUIRE(plan.baths.size() > 1);
  CHECK(plan.baths.at(0).bath.reused == 0 * litre);
  for (std::size_t i = 1; i < plan.baths.size(); ++i) {
    const Volume there = plan.baths.at(i - 1).bath.left_over;
    CHECK(plan.baths.at(i).bath.reused / litre ==
          doctest::Approx(std::min(there, plan.baths.at(i).bath.pour) / litre));
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
  const std::string shop_text = order_file("shop.toml");
  const Shop shop = shop_of(shop_text.substr(0, shop_text.find("[[routing]]")) + text);
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
  const OrderTimes& times = *plan.orders.front().times;
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
  const std::string shop_text = order_file("shop.toml");
  const Shop shop = shop_of(shop_text.substr(0, shop_text.find("[[routing]]")) + text);
  OrderToMake order = wanted(shop, 9, "2027-09-30");
  order.durations.drying = 26 * hour;
  order.durations.cooling = 2 * hour;
  const ShopPlan plan = planned({order}, shop);
  const auto& done = plan.orders.front().times->planned.operations;
  const PlannedOperation &dry = done.at(1), &cool = done.at(2);
  REQUIRE(dry.runs.size() > 1);
  CHECK(cool.runs.size() == dry.runs.size());
  // Hands-on at both ends of each drying and at the start of each cooling: a load is out when its cooling begins.
  REQUIRE(dry.hands_on.size() == 2 * dry.runs.size());
  REQUIRE(cool.hands_on.size() == cool.runs.size());
  for (std::size_t load = 0; load < cool.hands_on.size(); ++load) {
    const auto waited = cool.hands_on.at(load).from - dry.hands_on.at(2 * load + 1).to;
    CHECK(waited >= std::chrono::minutes{0});
    CHECK(waited <= std::chrono::minutes{10});
  }
}

TEST_CASE("a bath that takes what another leaves over begins when that one is over") {
  // Two vessels: without the resin both baths would begin on the same day.
  const std::string second = R"([[vessels]]
name = "jar"
shape = "rectangular"
width = "145 mm"
depth = "100 mm"
height = "400 mm"
usable_height = "200 mm"

[[resins]])";
  const std::string shop_text = order_file("shop.toml");
  const Shop shop = shop_of(shop_text.substr(0, shop_text.find("[[routing]]")) + with(process, "[[resins]]", second));
  const int in_a_bath = planned({wanted(shop, 40, "2027-09-30")}, shop).baths.front().shares.front().count;
  const ShopPlan plan = planned({wanted(shop, in_a_bath + 2, "2027-09-30")}, shop);
  REQUIRE(plan.baths.size() == 2);
  REQUIRE(plan.baths.back().bath.vessel->name.value != plan.baths.front().bath.vessel->name.value);
  REQUIRE(plan.baths.back().bath.reused > 0 * litre);
  CHECK(plan.baths.back().resin_from == std::vector<std::size_t>{0});
  CHECK(plan.baths.back().activated == plan.baths.front().activated);
  CHECK(plan.baths.back().vacuum->from >= plan.baths.front().soak->to);
}

TEST_CASE("resin ages from the day of its bath, or from that of the bottle that went in first") {
  const std::string bottle =
      "[[activated]]\nresin = \"Clear\"\namount = \"0.2 l\"\non = 2027-06-01\n\n[[routing]]\nname = \"Saw\"";
  const std::string shop_text = order_file("shop.toml");
  const std::string shop_head = shop_text.substr(0, shop_text.find("[[routing]]"));
  const Shop with_bottle = shop_of(shop_head + with(process, "[[routing]]\nname = \"Saw\"", bottle));
  const ShopPlan old_resin = planned({wanted(with_bottle, 3, "2027-09-30")}, with_bottle);
  CHECK(old_resin.baths.front().activated == parse_date("2027-06-01").value());
  const Shop shop = shop_for_baths();
  const ShopPlan fresh = planned({wanted(shop, 3, "2027-09-30")}, shop);
  CHECK(fresh.baths.front().activated == date_of(shop.zone.value, fresh.baths.front().vacuum->from));
  // Of another dye it does not go in.
  const ShopPlan dyed = planned({wanted(with_bottle, 3, "2027-09-30", "soot")}, with_bottle);
  CHECK(dyed.baths.front().activated == date_of(shop.zone.value, dyed.baths.front().vacuum->from));
}

TEST_CASE("what is done to witnesses alone takes time for them, and what comes after for the others") {
  const std::string text =
      with(process, "[[routing]]\nname = \"Turn\"",
           "[[routing]]\nname = \"Cut open\"\nwho = \"keeper\"\nper_piece = \"15 min\"\nonly_witnesses = true\n\n"
           "[[routing]]\nname = \"Turn\"");
  const std::string shop_text = order_file("shop.toml");
  const Shop shop = shop_of(shop_text.substr(0, shop_text.find("[[routing]]")) + text);
  OrderToMake order = wanted(shop, 3, "2027-09-30");
  const ShopPlan without = planned({order}, shop);
  CHECK(without.orders.front().times->routing.size() == 5);
  order.witnesses = 1;
  order.durations.witnessed = true;
  const ShopPlan with_one = planned({order}, shop);
  const OrderTimes& times = *with_one.orders.front().times;
  REQUIRE(times.operations.size() == 6);
  CHECK(times.operations.at(0).length / minute == doctest::Approx(4 * 10));
  CHECK(times.operations.at(4).length / minute == doctest::Approx(15));
  CHECK(times.operations.at(5).length / minute == doctest::Approx(3 * 30));
}

TEST_CASE("an order of which one bath cannot be planned is refused, not planned without it") {
  // An hour a piece with somebody in the shop: a full bath is longer at it than any stretch of work, the rest is not.
  const std::string slow =
      "[[routing]]\nname = \"Wire\"\nwho = \"keeper\"\nper_piece = \"1 h\"\nhands_on = \"ends\"\n\n";
  const std::string shop_text = order_file("shop.toml");
  const Shop shop = shop_of(shop_text.substr(0, shop_text.find("[[routing]]")) + slow + process);
  const Shop usual = shop_for_baths();
  const int in_a_bath = planned({wanted(usual, 20, "2027-09-30")}, usual).baths.front().shares.front().count;
  const ShopPlan plan = planned({wanted(shop, in_a_bath + 1, "2027-09-30")}, shop);
  REQUIRE(plan.baths.size() == 2);
  CHECK(!plan.baths.front().vacuum);
  CHECK(plan.baths.back().vacuum);
  CHECK(!plan.orders.front().times);
  REQUIRE(plan.orders.front().said.errors() == 1);
  CHECK(plan.orders.front().said.all().front().message.find("\"Wire\"") != std::string::npos);
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
    const ShopPlan plan = planned(orders, shop);
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
      const OrderTimes& times = *plan.orders.at(i).times;
      for (std::size_t k = 0; k < times.operations.size(); ++k) {
        for (const Interval& hands : times.planned.operations.at(k).hands_on) {
          auto& all = people[times.operations.at(k).who];
          if (std::ranges::find(all, hands) == all.end()) all.push_back(hands);
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

TEST_CASE("a blank that is squared already is not dried, bathed or cured again") {
  const std::string job =
      order_file("awl-handle.toml") + "\n[blank]\nsection = \"45 mm\"\nlength = \"130 mm\"\nstate = \"squared\"\n";
  const std::string shop_text = order_file("shop.toml");
  const Shop shop = shop_of(shop_text.substr(0, shop_text.find("[[routing]]")) +
                            "[[routing]]\nname = \"Dry\"\nwho = \"keeper\"\nplanned = \"drying\"\n" + process);
  const Order order = order_of(job);
  Diagnostics said;
  const auto plan = plan_order(order, shop, Record{}, said);
  REQUIRE_MESSAGE(plan.has_value(), rendered(said));
  const ShopPlan together = planned({order_to_make(order, shop, *plan)}, shop);
  REQUIRE(together.orders.front().times);
  for (const OperationFacts* facts : together.orders.front().times->routing) CHECK_FALSE(facts->planned.has_value());
}
