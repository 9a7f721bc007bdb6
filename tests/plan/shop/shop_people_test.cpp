// People, machines and days in the shop's calendar: each case worked by hand, on the clock of one week. The rules are
// the shop's own words (common practice, no source).

#include "plan/shop/plan_shop.h"

#include <doctest/doctest.h>

#include "shared_orders.h"

using namespace blankwright;

namespace {

// The shop works Monday to Friday, 08:00 to 12:00 and 13:00 to 17:00; now is Monday 7 June 2027, 08:00.

OrderToMake turned(const std::string& id, int pieces, const std::string& due = "2027-07-30") {
  OrderToMake order;
  order.id = id;
  order.pieces = pieces;
  order.due = Given<Date>{parse_date(due).value(), Origin::job, {}, {}};
  return order;
}

struct Part {
  Instant from, to;
  std::string who;
};

/// What is done to an order in the only operation of a routing, part by part.
void check_parts(const PlannedInFull& plan, std::size_t order, const std::vector<Part>& by_hand) {
  REQUIRE(plan.orders.at(order).times);
  const auto parts = plan.orders.at(order).times->planned.operations.front().hands_on();
  REQUIRE(parts.size() == by_hand.size());
  for (std::size_t i = 0; i < parts.size(); ++i) {
    CAPTURE(i);
    CHECK(parts.at(i).from == by_hand.at(i).from);
    CHECK(parts.at(i).to == by_hand.at(i).to);
    CHECK(parts.at(i).who == by_hand.at(i).who);
  }
}

const std::string turn = R"(
[[routing]]
name = "Turn"
who = "turner"
per_piece = "1 h"
)";

}  // namespace

TEST_CASE("somebody works their own hours, not those of a day off or of their absence") {
  const std::string turner = R"(
[[people]]
name = "turner"
hours = {monday = ["18:00-20:00"], tuesday = ["06:00-08:00"], wednesday = ["06:00-08:00"], thursday = ["06:00-10:00"]}
away = [{from = 2027-06-08, to = "2027-06-09 07:00"}]
)";
  check_parts(planned({turned("A", 4)}, shop_with(turner + turn)), 0,
              {{june(7, "18:00"), june(7, "20:00"), "turner"},
               {june(9, "07:00"), june(9, "08:00"), "turner"},
               {june(10, "06:00"), june(10, "07:00"), "turner"}});
}

TEST_CASE("what either of two can do is done by whoever is ready first") {
  const std::string two =
      "[[people]]\nname = \"keeper\"\naway = [{from = \"2027-06-07 10:00\", to = 2027-06-08}]\n\n"
      "[[people]]\nname = \"turner\"\n" +
      turn + "also = [\"keeper\"]\n";
  const auto plan =
      planned({turned("A", 2, "2027-06-28"), turned("B", 2, "2027-06-29"), turned("C", 2)}, shop_with(two));
  check_parts(plan, 0, {{june(7, "08:00"), june(7, "10:00"), "turner"}});
  check_parts(plan, 1, {{june(7, "08:00"), june(7, "10:00"), "keeper"}});
  check_parts(plan, 2, {{june(7, "10:00"), june(7, "12:00"), "turner"}});
}

TEST_CASE("one begins what the other ends, and somebody is in the shop while either works") {
  const std::string watch = R"(
[[people]]
name = "keeper"
hours = {monday = ["08:00-12:00"]}

[[people]]
name = "turner"
hours = {monday = ["11:00-18:00"]}

[[routing]]
name = "Boil"
who = "keeper"
also = ["turner"]
fixed = "9 h"
hands_on = "ends"
hands_on_time = "30 min"
)";
  const auto plan = planned({turned("A", 1)}, shop_with(watch));
  check_parts(plan, 0,
              {{june(7, "08:00"), june(7, "08:30"), "keeper"}, {june(7, "16:30"), june(7, "17:00"), "turner"}});
}

TEST_CASE("a machine has one order at a time, and none while it is out of use") {
  const std::string lathe = R"(
[[machines]]
name = "lathe"
outages = [{from = "2027-06-07 09:00", to = "2027-06-07 11:00"}]
)";
  const std::string on_lathe = "machine = \"lathe\"\nalso = [\"keeper\"]\n";
  const auto plan = planned({turned("A", 2, "2027-06-28"), turned("B", 2)}, shop_with(lathe + turn + on_lathe));
  check_parts(plan, 0,
              {{june(7, "08:00"), june(7, "09:00"), "turner"}, {june(7, "11:00"), june(7, "12:00"), "turner"}});
  check_parts(plan, 1, {{june(7, "13:00"), june(7, "15:00"), "turner"}});
  CHECK(plan.orders.at(1).times->planned.operations.front().runs.front().resource == "lathe");
}

TEST_CASE("an oven or a vessel that is out of use is waited for") {
  const Shop broken = shop_with(
      with(process, "name = \"oven\"\n", "name = \"oven\"\noutages = [{from = 2027-06-08, to = 2027-06-20}]\n"));
  const auto plan = planned({wanted(broken, 2, "2027-07-30")}, broken);
  REQUIRE(plan.orders.at(0).times);
  const auto& cure = plan.orders.at(0).times->planned.operations.at(3);
  CHECK(cure.start == june(21, "08:00"));
}

TEST_CASE("what is sent out is back after its days by the calendar, and is taken in when somebody is there") {
  const std::string out = R"(
[[routing]]
name = "Turn"
who = "keeper"
turnaround = "5 d"
hands_on_time = "30 min"
)";
  const auto plan = planned({turned("A", 2)}, shop_with(out));  // Monday and five days: Saturday, so Monday
  check_parts(plan, 0,
              {{june(7, "08:00"), june(7, "08:30"), "keeper"}, {june(14, "08:00"), june(14, "08:30"), "keeper"}});
}

TEST_CASE("a day has no more pieces than the shop says, of all orders together") {
  const std::string glue = R"(
[[routing]]
name = "Glue"
who = "turner"
fixed = "30 min"
per_piece = "15 min"
most_a_day = 6
)";
  const auto plan = planned(in_hand({turned("A", 8, "2027-06-28"), turned("B", 3), turned("C", 2)}), shop_with(glue));
  check_parts(plan, 0,
              {{june(7, "08:00"), june(7, "10:00"), "turner"}, {june(8, "08:00"), june(8, "09:00"), "turner"}});
  check_parts(plan, 1, {{june(8, "09:00"), june(8, "10:15"), "turner"}});
  check_parts(plan, 2, {{june(9, "08:00"), june(9, "09:00"), "turner"}});
  const auto& runs = plan.orders.at(0).times->planned.operations.front().runs;
  REQUIRE(runs.size() == 2);
  CHECK(runs.at(0).blanks == 6);
  CHECK(runs.at(1).blanks == 2);
}

TEST_CASE("what one order leaves of a day is another's, where that saves a day") {
  const Shop shop = shop_with(turn + "most_a_day = 6\n");
  const auto plan = planned(
      in_hand({turned("A", 8, "2027-06-08"), turned("B", 7, "2027-06-09"), turned("C", 9, "2027-06-10")}), shop);
  const auto days = [&](std::size_t order) {
    std::vector<std::pair<int, int>> all;  // the day of June, and pieces
    for (const PlannedRun& run : plan.orders.at(order).times->planned.operations.front().runs)
      all.emplace_back(static_cast<int>(static_cast<unsigned>(date_of(shop.zone.value, run.at.from).day())),
                       run.blanks);
    return all;
  };
  CHECK(days(0) == std::vector<std::pair<int, int>>{{7, 6}, {8, 2}});
  CHECK(days(1) == std::vector<std::pair<int, int>>{{8, 4}, {9, 3}});
  CHECK(days(2) == std::vector<std::pair<int, int>>{{9, 3}, {10, 6}});
  // An hour a piece.
  const auto& last = plan.orders.at(1).times->planned.operations.front().runs.back();
  CHECK(last.at.to - last.at.from == std::chrono::hours{3});
}

TEST_CASE("each day's pieces go on with what may wait only so long before the next day's are done") {
  const std::string oil = R"(
[[routing]]
name = "Oil"
who = "turner"
per_piece = "30 min"
longest_wait = "1 d"
)";
  const Shop shop = shop_with(turn + "most_a_day = 2\n" + oil);
  const auto plan = planned({turned("A", 5)}, shop);
  check_parts(plan, 0,
              {{june(7, "08:00"), june(7, "10:00"), "turner"},
               {june(8, "08:00"), june(8, "10:00"), "turner"},
               {june(9, "08:00"), june(9, "09:00"), "turner"}});
  const auto& oiled = plan.orders.at(0).times->planned.operations.at(1).runs;
  REQUIRE(oiled.size() == 3);
  CHECK(oiled.at(0).at.from == june(7, "10:00"));
  CHECK(oiled.at(0).at.to == june(7, "11:00"));
  CHECK(oiled.at(1).at.from == june(8, "10:00"));
  CHECK(oiled.at(2).at.from == june(9, "09:00"));
  CHECK(oiled.at(2).at.to == june(9, "09:30"));
  CHECK(oiled.at(0).blanks == 2);
  CHECK(oiled.at(2).blanks == 1);
  // What another order leaves of a day takes its oil along: one on the 9th, two on the 10th.
  const auto both = planned(in_hand({turned("A", 5, "2027-06-08"), turned("B", 3, "2027-06-30")}), shop);
  const auto& others = both.orders.at(1).times->planned.operations.at(1).runs;
  REQUIRE(others.size() == 2);
  CHECK(others.at(0).at.to - others.at(0).at.from == std::chrono::minutes{30});
  CHECK(date_of(shop.zone.value, others.at(0).at.from) == date_of(shop.zone.value, june(9, "12:00")));
  CHECK(others.at(1).blanks == 2);
}

TEST_CASE("work that pauses is cut into no part shorter than is worth beginning") {
  const std::string long_turn = R"(
[[routing]]
name = "Turn"
who = "turner"
per_piece = "50 min"
)";
  // Five pieces, 250 min: 240 in the morning would leave 10 for the afternoon, so it begins five minutes later.
  check_parts(planned({turned("A", 5)}, shop_with(long_turn)), 0,
              {{june(7, "08:05"), june(7, "12:00"), "turner"}, {june(7, "13:00"), june(7, "13:15"), "turner"}});
  // Four take until 11:20 and three until the break: what would begin for ten minutes begins after it.
  const std::string three = "[[routing]]\nname = \"Turn\"\nwho = \"turner\"\nper_piece = \"46 min\"\n";
  const auto plan = planned(in_hand({turned("A", 5, "2027-06-28"), turned("B", 1)}), shop_with(three));
  check_parts(plan, 0, {{june(7, "08:00"), june(7, "11:50"), "turner"}});
  check_parts(plan, 1, {{june(7, "13:00"), june(7, "13:46"), "turner"}});
  // As short as the shop wants it.
  check_parts(planned({turned("A", 5)}, shop_with(long_turn + "least_part = \"10 min\"\n")), 0,
              {{june(7, "08:00"), june(7, "12:00"), "turner"}, {june(7, "13:00"), june(7, "13:10"), "turner"}});
}

TEST_CASE("the latest start leaves the others their places") {
  // Both are due on Monday, and the turner works eight hours that day: A, three hours, is placed before B, four.
  const auto plan = planned({turned("A", 3, "2027-06-07"), turned("B", 4, "2027-06-07")}, shop_with(turn));
  check_parts(plan, 0, {{june(7, "08:00"), june(7, "11:00"), "turner"}});
  check_parts(plan, 1,
              {{june(7, "11:00"), june(7, "12:00"), "turner"}, {june(7, "13:00"), june(7, "16:00"), "turner"}});
  // What B leaves of the day is 08:00 to 11:00 and 16:00 to 17:00: A may begin an hour later and end after B.
  CHECK(plan.in_full.at(0).delivery->latest_start == june(7, "09:00"));
  CHECK(plan.in_full.at(0).delivery->slack == std::chrono::minutes{60});
  // B may begin at 13:00, and end at 17:00.
  CHECK(plan.in_full.at(1).delivery->latest_start == june(7, "13:00"));
}

TEST_CASE("what was done today counts towards what a day may have") {
  const Shop shop = shop_with(turn + "most_a_day = 3\n");
  const auto turned_from = [&](int done) {
    OrderToMake order = turned("A", 2);
    order.past.resize(1);
    if (done > 0)
      order.past.front() = {Interval{june(7, "07:30"), june(7, "07:40")}, done,
                            std::vector<Instant>(static_cast<std::size_t>(done), june(7, "07:40"))};
    const PlannedInFull plan = planned({order}, shop);
    return plan.orders.front().times->planned.operations.front().runs.back().at.from;
  };
  CHECK(turned_from(0) == june(7, "08:00"));
  CHECK(turned_from(1) == june(7, "08:00"));
  CHECK(turned_from(2) == june(8, "08:00"));
}
