#include "plan/shop/plan_alone.h"

#include "diagnose/problem.h"
#include "diagnose/says_shop.h"
#include "plan/shop/batch.h"
#include "plan/shop/not_planned.h"
#include "plan/shop/shop_calendar.h"
#include "plan/shop/under_way.h"

namespace blankwright {

void plan_alone(OrderInShop& planned, const OrderToMake& order, const Shop& shop, const ShopTime& time) {
  PlacedTimes& t = planned.times.value();
  t.bath.reset();
  t.under_way.reset();
  auto ops = operations(t.routing, alone(order, shop));
  count_from_beginning(ops, time.at);
  auto placed = ShopCalendar{time}.place(ops, time.at, {});
  if (!placed && let_loads_wait(ops)) placed = ShopCalendar{time}.place(ops, time.at, {});
  if (!placed) {
    const OperationFacts& facts = *t.routing.at(ops.at(placed.error().operation).step);
    say_not_planned(planned.said, order, facts, ops, placed.error(), {shop, time});
    planned.times.reset();
    return;
  }
  note_running(ops, *placed);
  count_blanks(ops, *placed);
  t.planned = joined(ops, std::move(*placed), t.routing.size());
  t.alone = true;
  planned.said.warning(Problem::calendar_too_full, order.quantity_at, says::calendar_is_full)
      .hint(says::compile_fewer);
}

bool let_loads_wait(std::vector<Operation>& ops) {
  bool any = false;
  for (std::size_t i = 1; i < ops.size(); ++i) {
    if (ops.at(i).step != ops.at(i - 1).step || !ops.at(i).longest_wait) continue;
    ops.at(i).longest_wait.reset();
    any = true;
  }
  return any;
}

}  // namespace blankwright
