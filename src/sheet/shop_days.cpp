#include "sheet/shop_days.h"

namespace blankwright {

ShopDays days_of(const Dossier& d) {
  const OrderSchedule& planned = d.times.planned;
  const Instant start = planned.operations.empty() ? planned.finish : planned.operations.front().start;
  const auto due = d.order.due ? std::optional{d.order.due->value} : std::nullopt;
  return {d.shop,
          d.sheet_template,
          d.at,
          d.program,
          d.draft,
          {{d.order.id.value, d.order.client.value, d.order.item.value, blank_count(d), due, start, planned.finish,
            d.times.delivery}},
          shop_tasks(tasks_of(d.order.id.value, d.times))};
}

}  // namespace blankwright
