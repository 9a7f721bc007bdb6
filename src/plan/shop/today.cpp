#include "plan/shop/today.h"

#include <algorithm>
#include <set>

#include "plan/shop/against_plan.h"

namespace blankwright {
namespace {

/// The stretch of work that is on or comes next, and the end of the last one on its day.
struct Day {
  Instant from, to;
};
std::optional<Day> day_of_work(const ShopTime& time, Instant at) {
  const auto first = stretch_at_or_after(time.calendar, at);
  if (!first) return std::nullopt;
  const auto end = last_working(time.calendar, time.calendar.next_day(std::max(at, first->from)));
  return Day{std::max(at, first->from), end.value_or(first->to)};
}

/// What somebody does before that moment.
std::vector<Task> hands_before(std::span<const Task> all, Instant end) {
  std::vector<Task> hands;
  for (const Task& task : all) {
    if (task.needs_hands() && task.at.from < end) hands.push_back(task);
  }
  return hands;
}

bool goes_on(const Task& task) { return task.kind == TaskKind::attended || task.kind == TaskKind::by_itself; }

RunningNow running_now(const Task& task, const ShopTime& time) {
  RunningNow now{task};
  if (task.ends_from <= time.at) return now;
  if (task.kind == TaskKind::attended) now.nobody_from = nobody_from(task.ends_from, time);
  if (const auto outage = outage_meanwhile(task.resource, {task.at.from, task.ends_from}, time))
    now.out_of_order = outage->from;
  return now;
}

/// For each vessel and oven what is planned in it first.
std::vector<Task> next_uses(std::span<const Task> all) {
  std::vector<Task> next;
  std::set<std::string> seen;
  for (const Task& task : all) {
    if (task.is != RunIs::planned || task.resource.empty() || !goes_on(task)) continue;
    if (seen.insert(task.resource).second) next.push_back(task);
  }
  return next;
}

/// Says of what is to begin how many of its blanks are on HOLD before it.
void count_held(std::vector<Task>& tasks, const OrderWithTimes& order, const Shop& shop) {
  for (Task& task : tasks) {
    if (task.is != RunIs::planned || task.kind == TaskKind::ends) continue;
    task.orders.front().held = static_cast<int>(std::ranges::count_if(order.held, [&](const BlankOnHold& one) {
      const bool stands_before = order.times->routing.at(one.step) == &shop.routing.at(task.number);
      return stands_before && (task.batch.empty() || task.batch == one.bath || task.batch == one.load);
    }));
  }
}

constexpr std::chrono::hours a_day{24};

}  // namespace

std::optional<Instant> next_day_of_work(const ShopTime& time) {
  const auto day = day_of_work(time, time.at);
  return day ? next_working(time.calendar, day->to) : std::nullopt;
}

Today today_of(std::span<const OrderWithTimes> orders, const ShopPlan& if_nothing_today, const Shop& shop,
               const ShopTime& time) {
  Today today{time.at, time.at, {}, {}, time.at, {}, {}, {}};
  if (const auto day = day_of_work(time, time.at)) {
    today.from = day->from;
    today.to = day->to;
  }
  std::vector<Task> all;
  for (const OrderWithTimes& order : orders) {
    std::vector<Task> own = tasks_of(order.id, *order.times, shop);
    count_held(own, order, shop);
    std::ranges::move(own, std::back_inserter(all));
  }
  all = shop_tasks(std::move(all));
  std::vector<std::string> later;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    const OrderWithTimes& order = orders[i];
    if (order.times->is_late()) today.late.push_back({order.id, order.times->delivery->late_by, order.times->queue});
    const auto& then = if_nothing_today.orders.at(i).times;
    if (then && then->planned.finish - order.times->planned.finish >= a_day) later.push_back(order.id);
  }
  std::ranges::stable_sort(today.late, std::ranges::greater{}, &LateOrder::by);
  for (const Task& task : all) {
    if (task.is == RunIs::running && goes_on(task)) today.running.push_back(running_now(task, time));
    const bool begins =
        task.is == RunIs::planned && goes_on(task) && task.at.from >= time.at && task.at.from < today.to;
    if (!begins || task.at.to <= today.to) continue;
    BeforeLeaving& one = today.before_leaving.emplace_back(BeforeLeaving{task, {}});
    for (const TaskOrder& order : task.orders) {
      if (std::ranges::find(later, order.id) != later.end()) one.later.push_back(order.id);
    }
  }
  today.hands_from = today.from;
  today.hands = hands_before(all, today.to);
  const auto next = next_day_of_work(time);
  if (const auto day = next && today.hands.empty() ? day_of_work(time, *next) : std::nullopt) {
    today.hands_from = day->from;
    today.hands = hands_before(all, day->to);
  }
  std::ranges::stable_sort(today.running, {}, [](const RunningNow& one) { return one.task.at.to; });
  today.next = next_uses(all);
  return today;
}

}  // namespace blankwright
