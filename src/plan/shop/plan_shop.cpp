#include "plan/shop/plan_shop.h"

#include <algorithm>

#include "diagnose/failure.h"
#include "diagnose/problem.h"
#include "diagnose/says_shop.h"
#include "measure/elapsed.h"
#include "measure/quantity_text.h"
#include "plan/shop/against_plan.h"
#include "plan/shop/batch.h"
#include "plan/shop/best_arrangement.h"
#include "plan/shop/latest_start.h"
#include "plan/shop/plan_alone.h"
#include "plan/shop/queue.h"
#include "plan/shop/under_way.h"

namespace blankwright {
namespace {

/// Each operation of a routing once: as what is left of it goes on, in the oven where it is planned, or as it was
/// where nothing is left.
std::vector<Operation> one_of_each(const PlacedTimes& times, std::span<const Operation> left,
                                   const OrderToMake& order, const Shop& shop) {
  const auto& routing = times.routing;
  std::vector<Operation> all;
  for (std::size_t step = 0; step < routing.size(); ++step) {
    const auto found = std::ranges::find(left, step, &Operation::step);
    if (found != left.end()) {
      all.push_back(*found);
    } else {
      all.push_back(whole_operation(*routing.at(step), order, shop));
    }
    if (!all.back().further_ovens.empty()) all.back().resource = oven_of(times.planned.operations.at(step));
  }
  return all;
}

/// Of an order whose operations follow each other.
Delivery delivery_in_turn(std::size_t order, const PlacedTimes& times, const ShopPlan& plan,
                          std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time, Instant due) {
  std::vector<Operation> ops = operations_of(orders[order], times, plan, orders, shop);
  count_from_beginning(ops, time.at);
  ShopCalendar others = times.alone ? ShopCalendar{time} : plan.promised.value();
  if (!times.alone) others.take_back(times);
  const auto in_these = [&](const std::vector<Operation>& in) {
    return delivery(others.round_promises(in, {}).routing, time.calendar, times.planned, due);
  };
  const auto against_due = [&] {
    Delivery best = in_these(ops);
    for (const std::string& oven : further_ovens(ops)) {
      Delivery other = in_these(in_oven(oven, ops));
      if (other.latest_start > best.latest_start) best = std::move(other);
    }
    return best;
  };
  Delivery found = against_due();
  if (!found.latest_start && let_loads_wait(ops)) found = against_due();
  return found;
}

/// The same day of the year to come, of one that is so long past that the year must be wrong.
std::optional<Date> day_of_next_year(Date named, Date today) {
  constexpr std::chrono::days long_past{180};  // longer than any order is late
  if (std::chrono::sys_days{named} + long_past > std::chrono::sys_days{today}) return std::nullopt;
  while (!named.ok() || std::chrono::sys_days{named} < std::chrono::sys_days{today}) named += std::chrono::years{1};
  return named;
}

}  // namespace

std::vector<OrderPlaced> placed_of(const ShopPlan& plan, std::span<const OrderToMake> orders) {
  std::vector<OrderPlaced> all;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    if (plan.orders.at(i).times) all.push_back({orders[i].id, &*plan.orders.at(i).times});
  }
  return all;
}

OrderTimes times_in_short(std::size_t order, const ShopPlan& plan, std::span<const OrderToMake> orders,
                          const Shop& shop, const ShopTime& time) {
  const auto& placed = plan.orders.at(order).times;
  BW_EXPECT(placed.has_value());
  OrderTimes times{*placed, {}, {}, {}};
  times.operations = one_of_each(times, operations_of(orders[order], times, plan, orders, shop), orders[order], shop);
  const auto& day = orders[order].due;
  const auto due = day ? end_of_work(time.working, day->value) : std::nullopt;
  if (due) times.delivery = Delivery{*due, std::nullopt, std::nullopt, late_by(times.planned, *due)};
  return times;
}

OrderTimes times_in_full(std::size_t order, const ShopPlan& plan, std::span<const OrderToMake> orders,
                         const Shop& shop, const ShopTime& time, Diagnostics& out) {
  OrderTimes times = times_in_short(order, plan, orders, shop, time);
  if (!times.delivery) return times;
  const Instant due = times.delivery->due;
  times.delivery = !times.alone && goes_on_apart(order, plan, orders)
                       ? delivery_of_all(order, times, plan, orders, shop, time, due)
                       : delivery_in_turn(order, times, plan, orders, shop, time, due);
  const Delivery& d = *times.delivery;
  if (!times.is_late()) return times;
  times.queue = queue_of({orders[order].id, &times}, placed_of(plan, orders), time.at);
  const Zone& zone = shop.zone.value;
  const Moment finish{zone, times.planned.finish};
  Diagnostic& late = out.warning(Problem::finishes_late, orders[order].due->at,
                                 d.latest_start ? say(says::late_start_by, finish, Moment{zone, *d.latest_start})
                                                : say(says::late_anyway, finish));
  if (const auto meant = day_of_next_year(orders[order].due->value, date_of(zone, time.at))) {
    late.hint(says::day_is_past, *meant);
  } else if (const auto outage = outage_awaited(times, due, time)) {
    late.hint(says::end_outage_sooner, outage->resource, Moment{zone, outage->until});
  } else if (times.queue && times.queue->behind) {
    const Queue& queue = *times.queue;
    late.hint(says::queues_behind, queue.operation, queue.resource, Moment{zone, queue.wait.from},
              Moment{zone, queue.wait.to}, in_words(*queue.behind));
  } else {
    late.hint(says::tell_the_client);
  }
  return times;
}

ShopPlan plan_shop(std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time, Diagnostics& out) {
  const ToPlan given = to_plan(orders, shop, time);
  return best_arrangement(given, out).finished();
}

}  // namespace blankwright
