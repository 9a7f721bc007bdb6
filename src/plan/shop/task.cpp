#include "plan/shop/task.h"

#include <algorithm>
#include <map>
#include <span>
#include <tuple>
#include <utility>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

/// When, how and by whom what an operation takes in one of its runs; by nobody where no hand is needed.
struct RunPart {
  Interval at;
  TaskKind kind;
  std::string who{};
};
std::vector<RunPart> parts_of(const PlannedRun& run, const Operation& op) {
  std::vector<RunPart> parts;
  const bool throughout = op.hands_on == HandsOn::throughout;
  std::chrono::seconds without_hands = throughout ? std::chrono::seconds{0} : run.at.to - run.at.from;
  for (const HandsOnTime& at : run.hands_on) {
    const bool begins = at.from == run.at.from;
    parts.push_back({at, throughout ? TaskKind::work : begins ? TaskKind::begins : TaskKind::ends, at.who});
    without_hands -= at.to - at.from;
  }
  if (without_hands.count() > 0) parts.push_back({run.at, op.unattended ? TaskKind::by_itself : TaskKind::attended});
  if (parts.empty()) parts.push_back({run.at, TaskKind::work});  // a gate: it takes no time
  return parts;
}

/// What all tasks of an operation have in common.
Task task_of(const std::string& order_id, std::size_t number, const OperationFacts& facts) {
  Task task;
  task.orders = {{order_id}};
  task.number = number;
  task.operation = facts.name.value;
  task.who = facts.who.value;
  if (facts.limit) task.limit = facts.limit->value;
  return task;
}

/// Which of the runs of its bath a run is, and of how many; a load has its own number.
std::pair<std::size_t, std::size_t> turn_of(std::span<const PlannedRun> runs, std::size_t index) {
  if (runs[index].load) return {0, 1};
  const auto same_bath = [&](const PlannedRun& run) { return run.bath == runs[index].bath; };
  return {static_cast<std::size_t>(std::ranges::count_if(runs.first(index), same_bath)),
          static_cast<std::size_t>(std::ranges::count_if(runs, same_bath))};
}

/// The one with which a run is over: the last that takes a hand, unless it only began what goes on.
Task& last_of_run(std::vector<Task>& tasks, std::size_t first) {
  for (std::size_t i = tasks.size(); i > first; --i) {
    if (tasks.at(i - 1).needs_hands() && tasks.at(i - 1).kind != TaskKind::begins) return tasks.at(i - 1);
  }
  return tasks.back();
}

}  // namespace

std::vector<Task> tasks_of(const std::string& order_id, const OrderTimes& times, const Shop& shop) {
  BW_EXPECT(times.operations.size() == times.routing.size());
  std::vector<Task> tasks;
  for (std::size_t n = 0; n < times.routing.size(); ++n) {
    const OperationFacts& facts = *times.routing.at(n);
    const auto number = static_cast<std::size_t>(&facts - shop.routing.data());
    const Task common = task_of(order_id, number, facts);
    const std::vector<PlannedRun>& runs = times.planned.operations.at(n).runs;
    // Behind an order stands how many of its blanks, where those are not all that it has.
    const bool is_of_all = std::ranges::count(runs, RunIs::past, &PlannedRun::is) + 1 == std::ssize(runs);
    for (std::size_t k = 0; k < runs.size(); ++k) {
      const PlannedRun& run = runs.at(k);
      if (run.is == RunIs::past) continue;
      const std::size_t first = tasks.size();
      std::map<TaskKind, std::size_t> count;
      for (const auto& [at, kind, who] : parts_of(run, times.operations.at(n))) {
        Task& task = tasks.emplace_back(common);
        task.at = at;
        task.kind = kind;
        if (!who.empty()) task.who = who;
        task.run_from = run.at.from;
        task.part = count[kind]++;
        const bool is_shared = run.bath || !run.name.empty();
        task.orders.front().blanks = is_of_all && !is_shared ? 0 : run.blanks;
        task.resource = run.resource;
        task.is = run.is;
        task.ends_from = run.least_end.value_or(run.at.to);
        task.batch = run.name;
        task.lowest = run.lowest;
        task.bath = run.bath;
        task.load = run.load;
        std::tie(task.turn, task.turns) = turn_of(runs, k);
      }
      if (facts.hold) last_of_run(tasks, first).hold = facts.hold->value;
    }
  }
  return tasks;
}

std::vector<Task> shop_tasks(std::vector<Task> tasks) {
  const auto work = [](const Task& task) {
    return std::tie(task.at.from, task.kind, task.who, task.at.to, task.number, task.bath, task.load, task.batch);
  };
  std::ranges::sort(tasks, [&](const Task& a, const Task& b) {
    return std::tuple{work(a), a.orders.front().id} < std::tuple{work(b), b.orders.front().id};
  });
  std::vector<Task> out;
  for (Task& task : tasks) {
    if (!out.empty() && (task.bath || !task.batch.empty()) && work(out.back()) == work(task)) {
      out.back().orders.push_back(std::move(task.orders.front()));
    } else {
      out.push_back(std::move(task));
    }
  }
  return out;
}

}  // namespace blankwright
