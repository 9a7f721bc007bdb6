#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "plan/order/order_material.h"
#include "plan/shop/drawn_dates.h"
#include "plan/shop/queue.h"
#include "plan/shop/shop_needs.h"
#include "plan/wood/start_count.h"

namespace blankwright {

/// What a date is promised from: orders that are planned together, the first of them the one that it is for, behind
/// the others. All of it outlives the promise.
struct ToPromise {
  const Order& order;
  std::span<const OrderToMake> orders;
  std::span<const OrderMaterial> materials;  ///< of each
  const ShopPlan& plan;                      ///< of these
  const Record& record;                      ///< what is known of the order
  int pieces = 0;                            ///< that are started of it in all
  std::vector<double> leads;                 ///< see Uncertain
  const Shop& shop;
  const ShopTime& time;
};

/// An order that another one goes before.
struct MadeLater {
  std::size_t order = 0;
  std::chrono::minutes by{};
  Instant finish;  ///< then
};
/// A date at the shop's confidence if the order goes before all others, and which of those are later by that.
struct IfFirst {
  Instant date;
  std::vector<MadeLater> later;
};

/// Which date can be promised, and what that goes by. A date is none where the order is not through within the
/// planning horizon as often as that asks.
struct Promise {
  std::optional<Instant> even, sure;    ///< as likely as not; at the shop's confidence
  std::optional<double> chance_of_due;  ///< that the due date is kept, where the order has one
  std::optional<IfFirst> if_first;      ///< where that is another, earlier day
  std::optional<Queue> queue;           ///< what the order waits for longest
  double further_starts = 0;            ///< share of the draws in which others are started for those that were lost
  std::optional<YieldSeen> yield;       ///< none: assumed
  Uncertain uncertain;                  ///< what else is drawn
  ShopNeeds needs;                      ///< of all the orders
};
Promise promise_of(const ToPromise& given);

}  // namespace blankwright
