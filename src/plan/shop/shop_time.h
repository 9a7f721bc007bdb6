#pragma once

#include <map>
#include <string>
#include <vector>

#include "plan/routing/working_time.h"
#include "read/shop.h"

namespace blankwright {

/// When the shop works, around the moment of a compile. Made once for all orders: it holds years of days.
struct ShopTime {
  Instant at;
  WorkingTime working;
  WorkCalendar calendar;                                 ///< when somebody is in the shop
  std::map<std::string, WorkCalendar> people;            ///< when each of them works; who is not here works its hours
  std::map<std::string, std::vector<Interval>> outages;  ///< of vessels, ovens, machines; apart, in order
};
ShopTime shop_time(const Shop& shop, Instant at);

}  // namespace blankwright
