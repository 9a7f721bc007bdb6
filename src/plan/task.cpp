#include "plan/task.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "diagnose/failure.h"

namespace blankwright {

std::vector<Task> tasks_of(const std::string& order_id, const OrderTimes& times) {
  BW_EXPECT(times.operations.size() == times.routing.size());
  std::vector<Task> tasks;
  for (std::size_t n = 0; n < times.routing.size(); ++n) {
    const OperationFacts& facts = *times.routing.at(n);
    const PlannedOperation& planned = times.planned.operations.at(n);
    const Task one{{},
                   false,
                   {order_id},
                   n,
                   0,
                   facts.name.value,
                   facts.who.value,
                   times.operations.at(n).resource,
                   facts.limit ? facts.limit->value : "",
                   ""};
    const std::size_t first = tasks.size();
    const auto add = [&](const Interval& at, std::size_t part, bool by_itself) {
      if (at.from >= at.to) return;
      tasks.push_back(one);
      tasks.back().at = at;
      tasks.back().part = part;
      tasks.back().by_itself = by_itself;
    };
    if (times.operations.at(n).hands_on != HandsOn::throughout || planned.hands_on.empty()) {
      for (std::size_t k = 0; k < planned.runs.size(); ++k) add(planned.runs.at(k), k, true);
    }
    for (std::size_t k = 0; k < planned.hands_on.size(); ++k) add(planned.hands_on.at(k), k, false);
    if (facts.hold && tasks.size() > first) tasks.back().hold = facts.hold->value;
  }
  return tasks;
}

std::vector<Task> shop_tasks(std::vector<Task> tasks) {
  const auto work = [](const Task& task) {
    return std::tie(task.at.from, task.by_itself, task.who, task.at.to, task.resource, task.operation);
  };
  std::ranges::stable_sort(tasks, [&](const Task& a, const Task& b) { return work(a) < work(b); });
  std::vector<Task> out;
  for (Task& task : tasks) {
    if (!out.empty() && work(out.back()) == work(task)) {
      out.back().orders.push_back(std::move(task.orders.front()));
    } else {
      out.push_back(std::move(task));
    }
  }
  return out;
}

}  // namespace blankwright
