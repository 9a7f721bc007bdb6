#pragma once

#include <span>

#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// Places all operations of a plan whose baths and loads are formed: what is under way, then open orders, then new
/// ones; in each the baths in their order and what of an order comes after them, then orders without a bath.
void place_orders(ShopPlan& plan, std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time);

/// Lets further loads wait for the oven as long as it takes; false where none was held to a wait.
bool let_loads_wait(std::vector<Operation>& ops);

}  // namespace blankwright
