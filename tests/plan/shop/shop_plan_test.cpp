#include "diagnose/problem.h"
#include "plan/shop/plan_shop.h"

#include <doctest/doctest.h>

#include <array>

#include "planning.h"
#include "working_week.h"

using namespace blankwright;

namespace {

// The clocks of Berlin go forward on Sunday 28 March 2027: 02:00 becomes 03:00.
const std::string routing = R"(
[[routing]]
name = "Saw"
who = "keeper"
fixed = "1 h"
per_piece = "30 min"

[[routing]]
name = "Soak"
who = "keeper"
fixed = "66 h"
hands_on = "start"
hands_on_time = "15 min"
unattended = true

[[routing]]
name = "Turn"
who = "turner"
per_piece = "1 h"
longest_wait = "0 min"
)";

Order due(const std::string& date) { return order_of(with(awl(), "quantity = 6", "quantity = 6\ndue = " + date)); }

struct Timed {
  std::optional<OrderTimes> times;  ///< points into its shop
  Diagnostics said;
};

OrderToMake pieces_of(const Order& order, int pieces) {
  OrderToMake wanted;
  wanted.pieces = pieces;
  wanted.due = order.due;
  wanted.quantity_at = order.quantity.at;
  return wanted;
}

/// One order of six pieces, the only one of its run.
Timed timed(const Order& order, const Shop& shop, std::string_view from, int pieces = 6) {
  Timed out;
  const std::array orders{pieces_of(order, pieces)};
  const ShopTime time = shop_time(shop, at(from));
  const ShopPlan plan = plan_shop(orders, shop, time, out.said);
  out.said.append(plan.orders.front().said);
  if (plan.orders.front().times) out.times = times_in_full(0, plan, orders, shop, time, out.said);
  return out;
}

}  // namespace

TEST_CASE("a soak of 66 hours over the weekend of the clock change is 66 hours, and the turner waits for its end") {
  // By hand, from Friday 26 March 08:00, 6 pieces, hours 8-12 and 13-17:
  // saw 1 h + 6 × 30 min = 4 h: 08:00 to 12:00; the soak is set up after noon, 13:00 CET; 66 h later the clock would
  // show 07:00 on Monday, but shows 08:00 CEST; turn 6 h: 08:00 to 12:00 and 13:00 to 15:00.
  const Timed t = timed(due("2027-03-29"), shop_with(routing), "2027-03-26T08:00:00+01:00");
  REQUIRE_MESSAGE(t.times.has_value(), rendered(t.said));
  const auto& planned = t.times->planned.operations;
  REQUIRE(planned.size() == 3);
  CHECK(planned.at(0).start == at("2027-03-26T08:00:00+01:00"));
  CHECK(planned.at(0).end == at("2027-03-26T12:00:00+01:00"));
  CHECK(planned.at(1).start == at("2027-03-26T13:00:00+01:00"));
  CHECK(planned.at(1).end == at("2027-03-29T08:00:00+02:00"));
  CHECK(planned.at(1).end - planned.at(1).start == std::chrono::hours{66});
  CHECK(when(planned.at(1).hands_on()) ==
        std::vector{Interval{at("2027-03-26T13:00:00+01:00"), at("2027-03-26T13:15:00+01:00")}});
  CHECK(planned.at(2).start == at("2027-03-29T08:00:00+02:00"));
  CHECK(t.times->operations.at(2).longest_wait == 0 * hour);
  CHECK(t.times->planned.finish == at("2027-03-29T15:00:00+02:00"));

  // Due on Monday, by 17:00: turning could begin at 10:00, the soak 66 h before, Friday 15:00, sawing at 10:00.
  REQUIRE(t.times->delivery.has_value());
  CHECK(t.times->delivery->due == at("2027-03-29T17:00:00+02:00"));
  CHECK(t.times->delivery->latest_start == at("2027-03-26T10:00:00+01:00"));
  CHECK(t.times->delivery->slack == std::chrono::hours{2});
  CHECK(t.times->delivery->late_by == std::chrono::minutes{0});
  CHECK(t.said.all().empty());
}

TEST_CASE("an order that finishes after its due date is told with the moment at which it should have begun") {
  // Due on Friday by 17:00: Thursday's work would be too late, because the soak alone takes 66 h: turning at the
  // latest from Friday 10:00, soak from 66 h before, Tuesday 16:00, sawing 4 h before that: Tuesday 11:00.
  const Timed t = timed(due("2027-03-26"), shop_with(routing), "2027-03-26T08:00:00+01:00");
  REQUIRE(t.times.has_value());
  CHECK(t.times->delivery->late_by == std::chrono::hours{69});  // Friday 17:00 CET to Monday 15:00 CEST
  CHECK(t.times->delivery->latest_start == at("2027-03-23T11:00:00+01:00"));
  REQUIRE(t.said.all().size() == 1);
  const Diagnostic& late = t.said.all().front();
  CHECK(late.severity == Severity::warning);
  CHECK(late.problem == Problem::finishes_late);
  CHECK(late.message_text().find("2027-03-29 15:00") != std::string::npos);
  CHECK(late.message_text().find("2027-03-23 11:00") != std::string::npos);
  CHECK(late.at.source->text.substr(late.at.source->text.find("due = ")).starts_with("due = 2027-03-26"));
}

TEST_CASE("an order without a due date is planned and judged by none") {
  const Timed t = timed(order_of(awl()), shop_with(routing), "2027-03-26T08:00:00+01:00");
  REQUIRE(t.times.has_value());
  CHECK_FALSE(t.times->delivery.has_value());
  CHECK(t.said.all().empty());
}

TEST_CASE("a soak runs through the night, and work throughout stops in the evening") {
  const std::string overnight = R"(
[[routing]]
name = "Soak"
who = "keeper"
fixed = "16 h"
hands_on = "ends"
hands_on_time = "20 min"
unattended = true
may_run_long = true
most = "24 h"

[[routing]]
name = "Turn"
who = "turner"
fixed = "10 h"
)";
  // Tuesday 15:00 + 16 h is 07:00; somebody is there from 08:00 and takes 20 min to end it; 10 h of turning: 08:20 to
  // 12:00 (3:40), 13:00 to 17:00 (4), Thursday 08:00 to 10:20.
  const Timed t = timed(order_of(awl()), shop_with(overnight), "2027-06-01T15:00:00+02:00");
  REQUIRE(t.times.has_value());
  CHECK(t.times->operations.at(0).longest == 24 * hour);
  CHECK(t.times->planned.operations.at(0).start == at("2027-06-01T15:00:00+02:00"));
  CHECK(t.times->planned.operations.at(0).end == at("2027-06-02T08:20:00+02:00"));
  CHECK(t.times->planned.finish == at("2027-06-03T10:20:00+02:00"));
}

TEST_CASE("an operation that no working day can hold is named with its reason") {
  const std::string attended = R"(
[[routing]]
name = "Cure"
who = "keeper"
fixed = "5 h"
hands_on = "ends"
)";
  const Timed t = timed(order_of(awl()), shop_with(attended), "2027-06-01T08:00:00+02:00");
  CHECK_FALSE(t.times.has_value());
  REQUIRE(t.said.errors() == 1);
  const Diagnostic& said = t.said.all().front();
  CHECK(said.problem == Problem::schedule_impossible);
  CHECK(said.message_text().find("\"Cure\"") != std::string::npos);
  CHECK(said.message_text().find("6 pieces") != std::string::npos);
  CHECK(said.message_text().find(reason(Impossible::attended_above_stretch).words) != std::string::npos);
  CHECK(said.hint_text() == "unattended = true here, if it may run while nobody is there");
  // Half an hour less than the longest stretch of work, and it can be planned.
  const Timed shorter =
      timed(order_of(awl()), shop_with(with(attended, "5 h", "3 h 30 min")), "2027-06-01T08:00:00+02:00");
  CHECK(shorter.times.has_value());
}

TEST_CASE("time for each piece counts as many pieces as are started") {
  const Shop shop = shop_with(routing);
  const Order order = order_of(awl());
  for (const int pieces : {1, 2, 5}) {
    const Timed t = timed(order, shop, "2027-06-01T08:00:00+02:00", pieces);
    REQUIRE(t.times.has_value());
    CHECK(t.times->operations.at(0).length / hour == doctest::Approx(1 + 0.5 * pieces));
    CHECK(t.times->operations.at(2).length / hour == doctest::Approx(1.0 * pieces));
  }
}
