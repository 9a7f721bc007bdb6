// What a calendar of some weeks says of what begins behind them.

#include "plan/shop/shop_calendar.h"

#include <doctest/doctest.h>

#include "shared_orders.h"

using namespace blankwright;

TEST_CASE("what can begin only behind a calendar's span has no room in it, and has some in the whole one") {
  const Shop shop = shop_with(process);
  ShopCalendar whole{shop_time(shop, june(7, "08:00"))};
  ShopCalendar week = whole.within({june(6, "08:00"), june(14, "08:00")});
  Operation op;
  op.name = "Turn";
  op.hands = {{"turner", nullptr}};
  op.length = 1 * hour;
  const auto placed = whole.place({op}, june(16, "08:00"), {});
  REQUIRE(placed);
  CHECK(placed->finish == june(16, "09:00"));
  CHECK(week.place({op}, june(11, "08:00"), {}));
  const auto behind = week.place({op}, june(16, "08:00"), {});
  REQUIRE_FALSE(behind);
  CHECK(behind.error().why == Impossible::beyond_horizon);
}
