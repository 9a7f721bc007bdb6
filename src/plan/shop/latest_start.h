#pragma once

#include <span>

#include "plan/order/order_to_make.h"
#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// Does an order go on in more than one place, or has something of it begun? Otherwise its operations follow each
/// other, and latest_start() of them is enough.
bool goes_on_apart(std::size_t order, const ShopPlan& plan, std::span<const OrderToMake> orders);

/// How an order stands against its due date that goes on in several baths or groups, some of it running perhaps. The
/// latest start is the last whole minute before which none of what is still to begin has to: placed anew from then
/// on, all its baths and groups are done by `due`. What runs stays, and so do the other orders.
Delivery delivery_of_all(std::size_t order, const PlacedTimes& times, const ShopPlan& plan,
                         std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time, Instant due);

}  // namespace blankwright
