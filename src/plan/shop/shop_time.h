#pragma once

#include "plan/routing/working_time.h"
#include "read/shop.h"

namespace blankwright {

/// When the shop works, around the moment of a compile. Made once for all orders: it holds years of days.
struct ShopTime {
  Instant at;
  WorkingTime working;
  WorkCalendar calendar;
};
ShopTime shop_time(const Shop& shop, Instant at);

}  // namespace blankwright
