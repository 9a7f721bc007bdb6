#pragma once

#include <vector>

#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// Plans an order for which the calendar has no room as if the shop had nothing else to do, with a warning; tells why
/// where it cannot be planned then either, and leaves it without times.
void plan_alone(OrderInShop& planned, const OrderToMake& order, const Shop& shop, const ShopTime& time);

/// Lets further loads wait for the oven as long as it takes; false where none was held to a wait.
bool let_loads_wait(std::vector<Operation>& ops);

}  // namespace blankwright
