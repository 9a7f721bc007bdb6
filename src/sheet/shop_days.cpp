#include "sheet/shop_days.h"

#include <fmt/format.h>

namespace blankwright {

std::string task_text(const WordTable& words, const Task& task) {
  switch (task.kind) {
    case TaskKind::work:
      return task.operation;
    case TaskKind::begins:
      return fmt::format("{}, {}", task.operation, words[Word::week_begins]);
    case TaskKind::ends:
      return fmt::format("{}, {}", task.operation, words[Word::week_ends]);
    case TaskKind::by_itself:
      return fmt::format("{}, {}", task.operation, words[Word::week_by_itself]);
  }
  return task.operation;
}

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
