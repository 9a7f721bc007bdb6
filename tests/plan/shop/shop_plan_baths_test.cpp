// Several orders in one run: baths and what goes into them. Expected values by hand and by rule.

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <vector>

#include "shared_orders.h"

using namespace blankwright;

TEST_CASE("orders of one resin and dye share a bath, the most urgent first in it") {
  const Shop shop = shop_for_baths();
  const PlannedInFull plan = planned({wanted(shop, 3, "2027-07-30"), wanted(shop, 4, "2027-07-02")}, shop);
  REQUIRE(plan.baths.size() == 1);
  REQUIRE(plan.baths.front().shares.size() == 2);
  CHECK(plan.baths.front().shares.at(0).order == 1);
  CHECK(plan.baths.front().shares.at(1).order == 0);
  // Both leave the bath at one time; turning is the turner's alone, so the urgent order is done first.
  CHECK(plan.orders.at(0).times->planned.operations.at(2).end ==
        plan.orders.at(1).times->planned.operations.at(2).end);
  CHECK(plan.orders.at(1).times->planned.finish <= plan.orders.at(0).times->planned.operations.at(4).start);
  // Sawing is that of all seven blanks: 70 min.
  CHECK(plan.in_full.at(0).operations.at(0).length / minute == doctest::Approx(70));
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
      CHECK(std::ranges::any_of(bath.shares, [](const BlankShare& share) { return share.witnesses > 0; }));
      for (const BlankShare& share : bath.shares) witnesses.at(share.order) += share.witnesses;
    }
    CHECK(witnesses == std::vector<int>{first.witnesses, second.witnesses, third.witnesses});
    for (std::size_t order = 0; order < 3; ++order) {
      CHECK(count_of(plan, order) == std::vector{first, second, third}.at(order).pieces + witnesses.at(order));
    }
  }
}

TEST_CASE("where each load is to have a witness it has one, and none of another order begins beside it without") {
  // The oven takes 5 blanks of 40 × 130 mm, 20 mm apart, within 220 × 220 mm, four beside each other and one across
  // them: four pieces beside each witness.
  const Shop shop = shop_for_baths();
  for (const int many : {1, 4, 5, 8, 9}) {
    CAPTURE(many);
    OrderToMake order = wanted(shop, many, "2027-07-02");
    order.pieces_a_witness = 4;
    order.witnesses = (many + 3) / 4;
    OrderToMake other = wanted(shop, 2, "2027-06-20");
    for (const bool beside : {false, true}) {
      CAPTURE(beside);
      const ShopPlan plan = planned(beside ? std::vector{other, order} : std::vector{order}, shop);
      const std::size_t own = beside ? 1 : 0;
      int witnesses = 0, pieces = 0;
      for (const PlannedLoad& load : plan.loads) {
        const auto of_own = std::ranges::find(load.shares, own, &BlankShare::order);
        if (of_own == load.shares.end()) continue;
        CHECK(of_own->witnesses == 1);
        witnesses += of_own->witnesses;
        pieces += of_own->count;
      }
      CHECK(witnesses == order.witnesses);
      CHECK(pieces == many);
    }
  }
}

TEST_CASE("dyes are kept apart, and light goes before dark where nothing is late by that") {
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

TEST_CASE("what lies in a bath already is planned in that one, with others where none lie in another") {
  const Shop shop = shop_for_baths();
  OrderToMake first = wanted(shop, 20, "2027-07-02"), second = wanted(shop, 4, "2027-07-30");
  const auto lies_in = [](OrderToMake& order, const std::string& bath, int count) {
    BlankGroup lying;
    lying.at.next = 1;
    lying.pieces = 1;
    lying.bath = lying.lies_in = bath;
    order.waiting_pieces.insert(order.waiting_pieces.end(), static_cast<std::size_t>(count), lying);
    order.holds_place = true;
  };
  lies_in(first, "K-1", 2);
  lies_in(first, "K-2", 3);
  lies_in(second, "K-1", 1);
  const ShopPlan plan = planned({first, second}, shop);
  REQUIRE(plan.baths.size() >= 3);
  const auto of = [&](std::size_t bath, std::size_t order) {
    const auto& shares = plan.baths.at(bath).shares;
    const auto found = std::ranges::find(shares, order, &BlankShare::order);
    return found == shares.end() ? 0 : found->count;
  };
  CHECK(of(0, 0) == 2);
  CHECK(of(0, 1) >= 1);
  CHECK(of(1, 0) > 3);  // others fill it up: its vacuum is not on yet
  CHECK(of(1, 0) == plan.baths.at(1).bath.layout.capacity() - of(1, 1));
  CHECK(count_of(plan, 0) == 20);
  CHECK(count_of(plan, 1) == 4);
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
      witnesses += share.witnesses;
    }
  }
  CHECK(std::ranges::all_of(seen, [](int times) { return times == 1; }));
  CHECK(witnesses == 3);  // also where it comes out with fewer baths than witnesses
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

TEST_CASE("what goes into bottles is what no later bath takes, so that no resin is counted twice") {
  const Shop shop = shop_for_baths();
  const ShopPlan plan = planned({wanted(shop, 30, "2027-09-30")}, shop);
  REQUIRE(plan.baths.size() > 1);
  REQUIRE(plan.baths.at(1).bath.reused > 0 * litre);
  // Mass balance over all baths: what was poured in fresh is in the wood, on it, or in a bottle.
  Volume fresh, used, bottled;
  for (const PlannedBath& bath : plan.baths) {
    fresh = fresh + bath.bath.fresh;
    used = used + bath.bath.taken_up + bath.bath.film;
    bottled = bottled + bath.to_bottle;
  }
  CHECK(bottled / litre == doctest::Approx((fresh - used) / litre));
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
  const Shop shop = shop_with(with(process, "[[resins]]", second));
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
  const Shop with_bottle = shop_with(with(process, "[[routing]]\nname = \"Saw\"", bottle));
  const ShopPlan old_resin = planned({wanted(with_bottle, 3, "2027-09-30")}, with_bottle);
  CHECK(old_resin.baths.front().activated == parse_date("2027-06-01").value());
  const Shop shop = shop_for_baths();
  const ShopPlan fresh = planned({wanted(shop, 3, "2027-09-30")}, shop);
  CHECK(fresh.baths.front().activated == date_of(shop.zone.value, fresh.baths.front().vacuum->from));
  // Of another dye it does not go in.
  const ShopPlan dyed = planned({wanted(with_bottle, 3, "2027-09-30", "soot")}, with_bottle);
  CHECK(dyed.baths.front().activated == date_of(shop.zone.value, dyed.baths.front().vacuum->from));
}

TEST_CASE("blanks that share a bath are dried together, as long as the order that needs longest") {
  const Shop shop = shop_for_baths();
  OrderToMake thin = wanted(shop, 3, "2027-07-02"), thick = wanted(shop, 3, "2027-07-30");
  thin.durations.drying = 24 * hour;
  thick.durations.drying = 40 * hour;
  const ShopPlan plan = planned({thin, thick}, shop);
  REQUIRE(plan.baths.size() == 1);
  CHECK(plan.baths.front().drying / hour == doctest::Approx(38));  // and 2 h between the weighings
}

TEST_CASE("the loads of a bath are as few as can be and of nearly one size") {
  // The oven takes 5 blanks of 40 × 130 mm, 20 mm apart, within 220 × 220 mm.
  const Shop shop = shop_for_baths();
  struct Row {
    int pieces, witnesses;
    std::vector<int> loads;
  };
  const Row by_hand[] = {{3, 0, {3}},    {6, 0, {3, 3}}, {7, 0, {4, 3}},
                         {5, 1, {3, 3}}, {8, 1, {5, 4}}, {10, 1, {4, 4, 3}}};
  for (const Row& row : by_hand) {
    CAPTURE(row.pieces);
    OrderToMake order = wanted(shop, row.pieces, "2027-07-02");
    order.witnesses = row.witnesses;
    const ShopPlan plan = planned({order}, shop);
    REQUIRE(plan.baths.size() == 1);
    std::vector<int> loads, pieces;
    for (const PlannedLoad& load : plan.loads) {
      loads.push_back(load.shares.front().total());
      CHECK(load.shares.front().first == std::accumulate(pieces.begin(), pieces.end(), 0));
      pieces.push_back(load.shares.front().count);
      CHECK(load.shares.front().witnesses == (&load == &plan.loads.back() ? row.witnesses : 0));
    }
    CHECK(loads == row.loads);
  }
}

TEST_CASE("a second witness of an order in one load is told with its other blanks there") {
  const Shop shop = shop_for_baths();
  OrderToMake order = wanted(shop, 1, "2027-07-30");
  order.witnesses = 2;
  order.pieces_a_witness = 3;
  order.durations.witnessed = true;
  const ShopPlan plan = planned({order}, shop);
  REQUIRE(plan.loads.size() == 1);
  REQUIRE(plan.loads.front().shares.size() == 1);
  CHECK(plan.loads.front().shares.front().count == 1);
  CHECK(plan.loads.front().shares.front().witnesses == 2);
  CHECK(plan.orders.front().times->planned.operations.at(3).runs.front().blanks == 3);
}

TEST_CASE("blanks of several orders are dried in the loads that the largest of them leaves room for") {
  // 220 × 220 mm within the clearance, 20 mm apart: 4 of 43 mm a load, but only 2 of 95 mm.
  const std::string dry =
      "[[routing]]\nname = \"Dry\"\nwho = \"keeper\"\nplanned = \"drying\"\nmay_run_long = true\n\n";
  const Shop shop = shop_with(dry + process);
  OrderToMake thin = wanted(shop, 2, "2027-07-02"), thick = wanted(shop, 2, "2027-07-30");
  thin.durations.drying = thick.durations.drying = 20 * hour;
  const auto dryings = [&](const OrderToMake& other) {
    const ShopPlan plan = planned(in_hand({thin, other}), shop);
    REQUIRE(plan.baths.size() == 1);
    std::set<Instant> begins;  // each load has its own
    for (const OrderInShop& order : plan.orders) {
      for (const PlannedRun& run : order.times->planned.operations.front().runs) begins.insert(run.at.from);
    }
    return begins.size();
  };
  CHECK(dryings(thick) == 1);
  thick.sawn_section = 95 * mm;
  CHECK(dryings(thick) == 2);
  // 2 and 3 of these: a load of 3 and a load of 2 would not go in, so 2, 2 and 1, and each blank is in one of them.
  thick.pieces = 3;
  const ShopPlan plan = planned(in_hand({thin, thick}), shop);
  std::map<Instant, int> of_load;
  std::vector<int> of_order(2, 0);
  for (std::size_t i = 0; i < 2; ++i) {
    for (const PlannedRun& run : plan.orders.at(i).times->planned.operations.front().runs) {
      of_load[run.at.from] += run.blanks;
      of_order.at(i) += run.blanks;
    }
  }
  CHECK(of_order == std::vector{2, 3});
  std::vector<int> loads;
  for (const auto& [begins, blanks] : of_load) loads.push_back(blanks);
  CHECK(loads == std::vector{2, 2, 1});
}

TEST_CASE("a vessel that is out of order for weeks is not waited for where another one takes the blanks") {
  const std::string spare =
      "\n[[vessels]]\nname = \"spare\"\ndiameter = \"200 mm\"\nheight = \"400 mm\"\n"
      "usable_height = \"250 mm\"\n\n[[resins]]";
  const auto vessel = [&](const std::string& until) {
    const std::string out = "name = \"pot\"\noutages = [{from = 2027-06-01, to = " + until + "}]\n";
    const Shop shop = shop_with(with(with(process, "name = \"pot\"\n", out), "\n[[resins]]", spare));
    return planned({wanted(shop, 3, "2027-07-30")}, shop).baths.at(0).bath.vessel->name.value;
  };
  CHECK(vessel("2027-06-08") == "pot");  // now is the 7th; the first of two that need as much resin
  CHECK(vessel("2027-08-01") == "spare");
}
