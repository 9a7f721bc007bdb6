#include "plan/task.h"

#include <algorithm>
#include <map>
#include <span>
#include <tuple>
#include <utility>

#include "diagnose/failure.h"

namespace blankwright {

namespace {

struct Part {
  Interval at;
  TaskKind kind;
  std::string resource;
};

/// Adds what an operation that is not worked at throughout takes in one of its runs.
void add_parts(const PlannedRun& run, HandsOn how, std::span<const Interval> hands_on, std::vector<Part>& parts) {
  std::chrono::seconds alone = run.at.to - run.at.from;
  for (const Interval& at : hands_on) {  // of all runs, which may overlap
    const bool begins = at.from == run.at.from;
    if (!begins && (how != HandsOn::at_both_ends || at.to != run.at.to)) continue;
    parts.push_back({at, begins ? TaskKind::begins : TaskKind::ends, run.resource});
    alone -= at.to - at.from;
  }
  if (alone.count() > 0) parts.push_back({run.at, TaskKind::by_itself, run.resource});
}

std::vector<Part> parts_of(const PlannedOperation& planned, const Operation& op) {
  std::vector<Part> parts;
  if (op.hands_on == HandsOn::throughout) {
    for (const Interval& at : planned.hands_on) parts.push_back({at, TaskKind::work, op.resource});
  } else {
    for (const PlannedRun& run : planned.runs) add_parts(run, op.hands_on, planned.hands_on, parts);
  }
  return parts;
}

}  // namespace

std::vector<Task> tasks_of(const std::string& order_id, const OrderTimes& times) {
  BW_EXPECT(times.operations.size() == times.routing.size());
  std::vector<Task> tasks;
  for (std::size_t n = 0; n < times.routing.size(); ++n) {
    const OperationFacts& facts = *times.routing.at(n);
    const Operation& op = times.operations.at(n);
    Task one;
    one.orders = {order_id};
    one.number = n;
    one.operation = facts.name.value;
    one.who = facts.who.value;
    if (facts.limit) one.limit = facts.limit->value;
    std::map<TaskKind, std::size_t> count;
    Task* last = nullptr;  // somebody is at, if at any
    const std::vector<Part> parts = parts_of(times.planned.operations.at(n), op);
    tasks.reserve(tasks.size() + parts.size());
    for (const Part& part : parts) {
      Task& task = tasks.emplace_back(one);
      task.at = part.at;
      task.kind = part.kind;
      task.part = count[part.kind]++;
      task.resource = part.resource;
      if (last == nullptr || part.kind != TaskKind::by_itself) last = &task;
    }
    if (facts.hold && last != nullptr) last->hold = facts.hold->value;
  }
  return tasks;
}

std::vector<Task> shop_tasks(std::vector<Task> tasks) {
  const auto work = [](const Task& task) {
    return std::tie(task.at.from, task.kind, task.who, task.at.to, task.resource, task.operation);
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
