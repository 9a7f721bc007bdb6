#pragma once

#include <span>

#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"
#include "plan/shop/turns.h"

namespace blankwright {

/// Places all operations of a plan whose baths and loads are formed and numbered: what is under way, then one turn
/// after the other. Behind an order's last bath comes what it does by itself.
void place_orders(ShopPlan& plan, std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time,
                  std::span<const Turn> turns);

}  // namespace blankwright
