#pragma once

#include <span>

#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// Places all operations of a plan whose baths and loads are formed. Light dyes go before dark ones as long as
/// nothing is late by that; otherwise the turns are tried by date, and then each block at other places, as long as
/// that makes all of them together less late: so many placings that it takes no longer than a few of a large shop,
/// the same on every machine. Of turns that are as late, what is finished first, and then what was tried first.
void place_in_turn(ShopPlan& plan, std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time);

}  // namespace blankwright
