#pragma once

#include <optional>
#include <vector>

#include "plan/schedule.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// The planned times of one order, as if the shop had nothing else to do.
struct OrderTimes {
  std::vector<Operation> operations;  ///< of the routing, for this order's pieces
  OrderSchedule planned;
  std::optional<Delivery> delivery;  ///< where the order has a due date
};

/// When the shop works, around the moment of a compile. Made once for all orders: it holds years of days.
struct ShopTime {
  Instant at;
  WorkingTime working;
  WorkCalendar calendar;
};
ShopTime shop_time(const Shop& shop, Instant at);

/// Plans an order's operations from `time.at` on: hands-on work in working hours, a soak through the night where the
/// shop lets it run alone. An order that cannot be planned is an error, one that finishes late a warning.
std::optional<OrderTimes> plan_times(const Order& order, const Shop& shop, int pieces, const ShopTime& time,
                                     Diagnostics& out);

}  // namespace blankwright
