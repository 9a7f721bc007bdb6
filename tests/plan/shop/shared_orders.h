#pragma once

// Several orders in one run: a shop with a pot and an oven, orders for it, and how they are planned together.

#include <doctest/doctest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "plan/shop/plan_shop.h"
#include "planning.h"
#include "working_week.h"

namespace blankwright {

inline const std::string process = R"(
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
unattended_drying = true
unattended_curing = true

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

/// When most of them are planned: a Monday, when work begins.
inline constexpr std::string_view june_7 = "2027-06-07T08:00:00+02:00";

inline Instant june(int day, const std::string& clock) {
  return at("2027-06-" + std::string(day < 10 ? "0" : "") + std::to_string(day) + "T" + clock + ":00+02:00");
}

inline Shop shop_for_baths() { return shop_with(process); }

inline OrderToMake wanted(const Shop& shop, int pieces, const std::string& due, std::optional<std::string> dye = {}) {
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

/// Orders that hold their places: none of them late, they are planned by the rule, and nothing better is looked for.
inline std::vector<OrderToMake> in_hand(std::vector<OrderToMake> orders) {
  for (OrderToMake& order : orders) order.holds_place = true;
  return orders;
}

/// With what is printed of each order's times, where it has some.
struct PlannedInFull : ShopPlan {
  std::vector<OrderTimes> in_full;
};

inline PlannedInFull planned(const std::vector<OrderToMake>& orders, const Shop& shop) {
  Diagnostics said;
  const ShopTime time = shop_time(shop, at(june_7));
  PlannedInFull plan{plan_shop(orders, shop, time, said), {}};
  CHECK(said.all().empty());
  plan.in_full.resize(orders.size());
  for (std::size_t i = 0; i < orders.size(); ++i) {
    OrderInShop& order = plan.orders.at(i);
    if (order.times) plan.in_full.at(i) = times_in_full(i, plan, orders, shop, time, order.said);
  }
  return plan;
}

inline int count_of(const ShopPlan& plan, std::size_t order) {
  int sum = 0;
  for (const PlannedBath& bath : plan.baths) {
    for (const BlankShare& share : bath.shares) sum += share.order == order ? share.total() : 0;
  }
  return sum;
}

inline void check_apart(std::vector<Interval> all) {
  std::ranges::sort(all, {}, &Interval::from);
  for (std::size_t i = 1; i < all.size(); ++i) CHECK(all.at(i - 1).to <= all.at(i).from);
}

}  // namespace blankwright
