// Which oven a load goes into where several would do: each case worked by hand. The rules are the shop's own words
// (common practice, no source).

#include <doctest/doctest.h>

#include "plan/shop/plan_shop.h"
#include "shared_orders.h"

using namespace blankwright;

namespace {

// The shop works Monday to Friday, 08:00 to 12:00 and 13:00 to 17:00; now is Monday 7 June 2027, 08:00.

const std::string usual_gap = "gap = \"20 mm\"\n";

/// A shop with a second oven behind the usual one, of which `first` and `second` say something more.
Shop shop_with_two(const std::string& first, const std::string& second) {
  const std::string other =
      "\n[[ovens]]\nname = \"second\"\nwidth = \"300 mm\"\ndepth = \"300 mm\"\nheight = \"300 mm\"\n"
      "clearance = \"40 mm\"\nunattended_drying = true\nunattended_curing = true\n" +
      second + "\n[pump]";
  return shop_with(with(with(process, "name = \"oven\"\n", "name = \"oven\"\n" + first), "\n[pump]", other));
}

Cure cure_of(const OvenFacts& oven, Duration total) {
  Cure cure;
  cure.oven = &oven;
  cure.total = total;
  return cure;
}

/// An order whose blanks cure in so long in the first oven and in the second.
OrderToMake in_either(const Shop& shop, const std::string& id, int pieces, const std::string& due, Duration first,
                      Duration second) {
  OrderToMake order = wanted(shop, pieces, due);
  order.id = id;
  order.durations.cure = first;
  order.cure = cure_of(shop.ovens.at(0), first);
  order.further_ovens = {{&shop.ovens.at(1), cure_of(shop.ovens.at(1), second)}};
  return order;
}

const PlannedOperation& cure_in(const PlannedInFull& plan, std::size_t order) {
  REQUIRE(plan.orders.at(order).times);
  return plan.orders.at(order).times->planned.operations.at(3);
}

}  // namespace

TEST_CASE("an oven that is out of order for weeks is not waited for where another one takes the load") {
  for (const std::string from : {"2027-06-01", "2027-06-08"}) {  // already, or from tomorrow on
    CAPTURE(from);
    const Shop shop =
        shop_with_two("outages = [{from = " + from + ", to = 2027-06-29}]\n", usual_gap + "shelves = 2\n");
    const auto plan = planned({in_either(shop, "A", 2, "2027-07-30", 3 * hour, 5 * hour)}, shop);
    // Soaked through the night, taken out from 08:00 to 08:15, and in for as long as it takes in that oven.
    const PlannedOperation& cure = cure_in(plan, 0);
    CHECK(cure.start == june(8, "08:15"));
    CHECK(cure.end == june(8, "13:15"));
    CHECK(cure.runs.front().resource == "second");
    // What is printed of the load is of that oven.
    const PlannedLoad& load = plan.loads.at(0);
    CHECK(load.oven == &shop.ovens.at(1));
    CHECK(load.layout.shelves == 2);
    REQUIRE(load.cures);
    CHECK(load.cures->total == 5 * hour);
    CHECK(plan.in_full.at(0).operations.at(3).resource == "second");
    CHECK(oven_of(*plan.orders.at(0).times, PlannedWork::cure) == "second");
    // Backwards it is planned there too: on time means that it can begin later.
    REQUIRE(plan.in_full.at(0).delivery->latest_start);
    CHECK(*plan.in_full.at(0).delivery->latest_start > june(21, "08:00"));
  }
}

TEST_CASE("where both ovens are free a load goes into the first, and into the one in which it is done sooner") {
  const Shop shop = shop_with_two("", usual_gap);
  const auto oven = [&](Duration first, Duration second) {
    return cure_in(planned({in_either(shop, "A", 2, "2027-07-30", first, second)}, shop), 0).runs.front().resource;
  };
  CHECK(oven(3 * hour, 3 * hour) == "oven");
  CHECK(oven(3 * hour, 2 * hour) == "second");
}

TEST_CASE("an oven that stands unused takes the load that would queue for the other one") {
  const Shop shop = shop_with_two("", usual_gap);
  OrderToMake dyed = in_either(shop, "B", 2, "2027-07-30", 20 * hour, 20 * hour);
  dyed.dye = "soot";
  dyed.darkness = 2;
  OrderToMake clear = in_either(shop, "A", 2, "2027-06-20", 60 * hour, 60 * hour);
  const auto plan = planned({clear, dyed}, shop);
  // The clear bath's load is in the oven from Tuesday to Thursday evening; the next bath is out on Wednesday.
  CHECK(cure_in(plan, 0).runs.front().resource == "oven");
  CHECK(cure_in(plan, 1).runs.front().resource == "second");
  CHECK(cure_in(plan, 1).start < cure_in(plan, 0).end);
}

TEST_CASE("an oven that takes fewer blanks at once than the load has is left out") {
  const Shop shop = shop_with_two("outages = [{from = 2027-06-01, to = 2027-06-21}]\n", "gap = \"150 mm\"\n");
  const auto oven = [&](int pieces) {
    return cure_in(planned({in_either(shop, "A", pieces, "2027-07-30", 3 * hour, 3 * hour)}, shop), 0)
        .runs.front()
        .resource;
  };
  CHECK(oven(1) == "second");
  CHECK(oven(3) == "oven");
}
