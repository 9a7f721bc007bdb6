#include "plan/shop/promise.h"

#include <algorithm>

#include "plan/shop/plan_shop.h"

namespace blankwright {
namespace {

template <class Amount>
bool lacks(const std::vector<Needed<Amount>>& all, const std::string& name, const std::string& order) {
  return std::ranges::any_of(all, [&](const Needed<Amount>& one) {
    return one.name == name && one.missing > Amount{} && std::ranges::find(one.orders, order) != one.orders.end();
  });
}

void add_deliveries(Uncertain& out, const ToPromise& given, const ShopNeeds& needs) {
  const auto& wood = given.shop.promise.wood_delivery;
  const OrderMaterial& material = given.materials.front();
  if (wood && material.on_boards.value_or(0) < material.to_saw) out.wood = wood->value;
  const ResinFacts* resin = given.orders.front().resin;
  if (resin != nullptr && resin->delivery && lacks(needs.resin, resin->name.value, given.order.id.value))
    out.resin = resin->delivery->value;
}

/// As the count to start has it.
Uncertain uncertain(const ToPromise& given, const std::optional<YieldSeen>& yield, const ShopNeeds& needs) {
  const OrderSoFar so_far = order_so_far(given.record);
  Uncertain out;
  out.wanted = std::max(0, given.order.quantity.value - so_far.good);
  out.in_work = std::max(0, given.pieces - so_far.good - so_far.lost + so_far.from_stock);
  out.yield = yield ? PastYield{yield->good, yield->started} : usual_yield;
  out.confidence = given.shop.yield.confidence.value / whole;
  out.spread = given.shop.promise.spread.value / whole;
  out.leads = given.leads;
  add_deliveries(out, given, needs);
  return out;
}

double confidence_of(const Shop& shop) { return shop.promise.confidence.value / whole; }

/// Only what runs keeps its place before it.
std::optional<IfFirst> if_first(const ToPromise& given, const Promise& promise) {
  std::vector<OrderToMake> orders{given.orders.begin(), given.orders.end()};
  for (std::size_t i = 0; i < orders.size(); ++i) orders.at(i).holds_place = i == 0;
  Diagnostics ignored;
  const ShopPlan plan = plan_shop(orders, given.shop, given.time, ignored);
  if (!plan.orders.front().times) return std::nullopt;
  const auto date =
      drawn_dates(plan, orders, 0, promise.uncertain, given.shop, given.time).at(confidence_of(given.shop));
  const Zone& zone = given.shop.zone.value;
  if (!date || (promise.sure && date_of(zone, *date) >= date_of(zone, *promise.sure))) return std::nullopt;
  IfFirst out{*date, {}};
  for (std::size_t i = 1; i < orders.size(); ++i) {
    const auto& then = plan.orders.at(i).times;
    const Instant now = given.plan.orders.at(i).times->planned.finish;
    if (!then || then->planned.finish <= now) continue;
    const auto by = std::chrono::floor<std::chrono::minutes>(then->planned.finish - now);
    out.later.push_back({i, by, then->planned.finish});
  }
  return out;
}

}  // namespace

Promise promise_of(const ToPromise& given) {
  Promise out;
  out.needs = shop_needs(given.plan, given.orders, given.materials, given.shop);
  out.yield = yield_seen(given.record.yield, given.shop.yield.expected);
  out.uncertain = uncertain(given, out.yield, out.needs);
  const DrawnDates dates = drawn_dates(given.plan, given.orders, 0, out.uncertain, given.shop, given.time);
  out.even = dates.at(0.5);
  out.sure = dates.at(confidence_of(given.shop));
  out.further_starts = static_cast<double>(dates.further_starts) / static_cast<double>(dates.draws);
  const auto& day = given.order.due;
  const auto due = day ? end_of_work(given.time.working, day->value) : std::nullopt;
  if (due) out.chance_of_due = dates.by(*due);
  out.queue = queue_of({given.order.id.value, &*given.plan.orders.front().times}, placed_of(given.plan, given.orders),
                       given.time.at);
  if (given.orders.size() > 1) out.if_first = if_first(given, out);
  return out;
}

}  // namespace blankwright
