#include "sheet/paper/shop_days.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace blankwright {
namespace {

/// So many ids, as long as an id may be, find room in a row of a page.
constexpr std::size_t most_orders_named = 8;

}  // namespace

std::string task_text(const WordTable& words, const Task& task) {
  switch (task.kind) {
    case TaskKind::work:
      return task.operation;
    case TaskKind::begins:
      return fmt::format("{}, {}", task.operation, words[Word::week_begins]);
    case TaskKind::ends:
      return fmt::format("{}, {}", task.operation, words[Word::week_ends]);
    case TaskKind::attended:
      return fmt::format("{}, {}", task.operation, words[Word::week_attended]);
    case TaskKind::by_itself:
      return fmt::format("{}, {}", task.operation, words[Word::week_by_itself]);
  }
  return task.operation;
}

std::string batch_text(const WordTable& words, const Task& task) {
  if (!task.batch.empty()) return task.batch;
  std::vector<std::string> parts;
  if (task.bath) parts.push_back(fmt::format("{} {}", words[Word::week_bath], *task.bath + 1));
  if (task.load) parts.push_back(fmt::format("{} {}", words[Word::week_load], *task.load + 1));
  if (task.turns > 1) {
    parts.push_back(
        fmt::format("{} {} {} {}", words[Word::week_group], task.turn + 1, words[Word::of_blanks], task.turns));
  }
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::string queue_text(const WordTable& words, const Queue& queue) {
  std::string out = fmt::format("{} {}", words[Word::today_queues_for], queue.resource);
  if (!queue.behind) return out;
  Task before;
  for (const std::string& id : queue.behind->orders) before.orders.push_back({id});
  before.batch = queue.behind->name;
  before.bath = queue.behind->bath;
  before.load = queue.behind->load;
  const std::string batch = batch_text(words, before);
  out += fmt::format(", {} {}", words[Word::today_behind], orders_text(words, before));
  return batch.empty() ? out : fmt::format("{}: {}", out, batch);
}

std::vector<std::string> place_lines(const WordTable& words, const Task& task) {
  const std::string batch = batch_text(words, task);
  if (task.resource.empty()) {
    return batch.empty() ? std::vector<std::string>{}
                         : std::vector{fmt::format("{} {}", words[Word::week_for_batch], batch)};
  }
  return batch.empty() ? std::vector{task.resource} : std::vector{task.resource, batch};
}

std::string orders_text(const WordTable& words, const Task& task) {
  std::vector<std::string> parts;
  for (const TaskOrder& order : task.orders) {
    if (parts.size() == most_orders_named) break;
    std::vector<std::string> counts;
    if (order.blanks > 0) counts.push_back(fmt::format("{}", order.blanks));
    if (order.held > 0) counts.push_back(fmt::format("{} {}", order.held, words[Word::hold]));
    parts.push_back(counts.empty() ? order.id : fmt::format("{} ({})", order.id, fmt::join(counts, ", ")));
  }
  if (task.orders.size() > most_orders_named) {
    parts.push_back(fmt::format("{} {}", words[Word::week_further], task.orders.size() - most_orders_named));
  }
  return fmt::format("{}", fmt::join(parts, ", "));
}

OrderInDays order_in_days(const Dossier& d) {
  const auto due = d.order.due ? std::optional{d.order.due->value} : std::nullopt;
  return {d.order.id.value,       d.order.client.value, d.order.item.value, blank_count(d), due,
          d.times.planned.finish, d.times.delivery,     d.times.queue};
}

}  // namespace blankwright
