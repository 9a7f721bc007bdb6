#include "commands/open_shop.h"

namespace blankwright {

OpenShop plan_open_shop(const RegisterPlace& register_place, const Shop& shop, Instant at, Diagnostics& out) {
  OpenShop open{plan_together({}, plan_open_orders(register_place, shop, {}, out), shop, at), {}};
  const PlannedTogether& planned = open.planned;
  out.append(planned.said_of_shop);
  const auto placed = placed_of(planned.plan, planned.to_make);
  for (std::size_t i = 0; i < planned.orders.size(); ++i) {
    OrderTimes& times = open.times.emplace_back(times_in_short(i, planned.plan, planned.to_make, shop, planned.time));
    if (times.is_late()) times.queue = queue_of({planned.orders.at(i).id, &times}, placed, at);
  }
  return open;
}

int blanks_before(std::size_t operation, const OrderToMake& order) {
  const auto still = [operation](const BlankGroup& group) { return group.at.next <= operation; };
  int blanks = 0;
  for (const auto& [waiting, count] :
       {std::pair{&order.waiting_pieces, order.pieces}, std::pair{&order.waiting_witnesses, order.witnesses}}) {
    const auto seen = std::ranges::count_if(*waiting, [&](const BlankGroup& group) { return !still(group); });
    blanks += count - static_cast<int>(seen);
  }
  for (const BlankGroup& group : order.under_way) blanks += still(group) ? group.pieces + group.witnesses : 0;
  return blanks;
}

}  // namespace blankwright
