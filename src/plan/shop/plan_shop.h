#pragma once

#include <span>

#include "plan/order/order_to_make.h"
#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// Plans orders together: one person of a name, one filling of a vessel and one load of an oven at a time. Blanks of
/// several orders share a bath if resin and dye agree and the vessel holds them; a bath is filled from the most
/// urgent order on. A bath's blanks go through the operations up to the cure together; after it each order goes its
/// own way, the most urgent first. Resin left over from one bath is used in the next of its kind. In which turn that
/// is placed, place_in_turn() says.
///
/// Orders that the planning horizon does not hold are planned as if they were alone, with a warning; one that cannot
/// even be planned so has an error and no times. What concerns the shop and no order is told in `out`.
ShopPlan plan_shop(std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time, Diagnostics& out);

/// All orders of a plan that have times.
std::vector<OrderPlaced> placed_of(const ShopPlan& plan, std::span<const OrderToMake> orders);

/// An order's times with its operations and by how much it is late, without what it queues for: quick.
OrderTimes times_in_short(std::size_t order, const ShopPlan& plan, std::span<const OrderToMake> orders,
                          const Shop& shop, const ShopTime& time);

/// An order's times with its operations and how they stand against its due date, with a warning when they are late.
/// Apart from plan_shop(), since the latest start takes longer than all else and the operations more room: an order's
/// are only wanted when it is written, and several can be worked out at once. `orders` as they were given to
/// plan_shop(), which found times for this one.
OrderTimes times_in_full(std::size_t order, const ShopPlan& plan, std::span<const OrderToMake> orders,
                         const Shop& shop, const ShopTime& time, Diagnostics& out);

}  // namespace blankwright
