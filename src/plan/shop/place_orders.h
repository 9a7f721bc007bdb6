#pragma once

#include <span>

#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// Places all operations of a plan whose baths and loads are formed: what is under way, then open orders, then new
/// ones; in each the baths in their order and what of an order comes after them, then orders without a bath.
void place_orders(ShopPlan& plan, std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time);

}  // namespace blankwright
