// What is to be done from when to when. Times by hand.

#include "plan/shop/task.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "working_week.h"

using namespace blankwright;

namespace {

Interval on_day(const char* day, const char* from, const char* to) {
  return {at(std::string{day} + "T" + from + ":00Z"), at(std::string{day} + "T" + to + ":00Z")};
}

OperationFacts facts_of_operation(const std::string& name, const std::string& who) {
  OperationFacts facts;
  facts.name.value = name;
  facts.who.value = who;
  return facts;
}

Operation operation(HandsOn hands_on, const std::string& resource) {
  Operation op;
  op.hands_on = hands_on;
  op.resource = resource;
  return op;
}

HandsOnTime by(const std::string& who, Interval at) { return {at, who}; }

PlannedOperation done(const PlannedRun& run) { return {run.at.from, run.at.to, {run}}; }

/// Sawing over a break, a bath that somebody begins and ends, glue that sets alone.
struct Morning {
  Shop shop;
  OrderTimes times;

  Morning() {
    shop.routing = {facts_of_operation("Saw", "keeper"), facts_of_operation("Soak", "keeper"),
                    facts_of_operation("Set", "turner")};
    shop.routing.at(0).limit = Given<std::string>{"oversize", Origin::shop, {}, {}};
    shop.routing.at(1).hold = Given<std::string>{"bubbling ended", Origin::shop, {}, {}};
    for (const OperationFacts& facts : shop.routing) times.routing.push_back(&facts);
    times.operations = {operation(HandsOn::throughout, ""), operation(HandsOn::at_both_ends, "another pot"),
                        operation(HandsOn::at_start, "")};
    times.operations.at(2).unattended = true;
    const Interval before = on_day("2027-05-03", "11:00", "12:00");
    const Interval after = on_day("2027-05-03", "13:00", "13:30");
    const Interval in = on_day("2027-05-03", "13:30", "13:45");
    const Interval out = on_day("2027-05-04", "08:00", "08:10");
    const Interval sets = on_day("2027-05-04", "09:00", "15:00");
    times.planned.operations = {
        done({{before.from, after.to}, {by("keeper", before), by("keeper", after)}, "", 1, {}}),
        done({{in.from, out.to}, {by("keeper", in), by("turner", out)}, "pot", 1, {}, 7}),
        done({sets, {}, "", {}, {}})};
    times.planned.finish = sets.to;
  }
};

std::string ids_of(const Task& task) {
  std::string ids;
  for (const TaskOrder& order : task.orders) ids += order.id + " ";
  return ids;
}

}  // namespace

TEST_CASE("a task is a stretch in which somebody is at it, or what goes on by itself") {
  const Morning morning;
  const auto tasks = tasks_of("A-1", morning.times, morning.shop);
  REQUIRE(tasks.size() == 6);
  CHECK(tasks[0].at == on_day("2027-05-03", "11:00", "12:00"));
  CHECK(tasks[0].limit == "oversize");
  CHECK(tasks[1].at == on_day("2027-05-03", "13:00", "13:30"));
  CHECK(tasks[1].kind == TaskKind::work);
  CHECK(tasks[1].part == 1);
  CHECK(tasks[2].kind == TaskKind::begins);
  CHECK(tasks[2].at == on_day("2027-05-03", "13:30", "13:45"));
  CHECK(tasks[2].hold.empty());
  CHECK(tasks[3].kind == TaskKind::ends);
  CHECK(tasks[3].at == on_day("2027-05-04", "08:00", "08:10"));
  CHECK(tasks[3].hold == "bubbling ended");
  CHECK(tasks[3].who == "turner");  // who ends it need not be who began it
  CHECK(tasks[4].who == "keeper");
  CHECK(tasks[4].kind == TaskKind::attended);
  CHECK(tasks[4].bath == 1);
  CHECK(tasks[4].at.from == at("2027-05-03T13:30:00Z"));
  CHECK(tasks[4].at.to == at("2027-05-04T08:10:00Z"));
  CHECK(tasks[4].resource == "pot");
  CHECK(tasks[4].hold.empty());
  CHECK(tasks[5].kind == TaskKind::by_itself);
  CHECK(tasks[5].who == "turner");
  for (const Task& task : tasks) {
    CHECK(task.orders == std::vector<TaskOrder>{{"A-1", task.operation == "Soak" ? 7 : 0}});
  }
}

TEST_CASE("each of several loads has its own begin, and its own hold") {
  Morning morning;
  morning.times.operations.at(1).unattended = true;
  const Interval first = on_day("2027-05-03", "13:30", "15:30");
  const Interval second = on_day("2027-05-03", "14:00", "16:00");
  const Interval begin_first = on_day("2027-05-03", "13:30", "13:40");
  const Interval begin_second = on_day("2027-05-03", "14:00", "14:10");
  const Interval end_second = on_day("2027-05-03", "15:50", "16:00");
  const Interval quick = on_day("2027-05-03", "16:00", "16:10");
  morning.times.planned.operations.at(1).runs = {
      {first, {by("keeper", begin_first)}, "box", {}, {}},
      {second, {by("keeper", begin_second), by("keeper", end_second)}, "box", {}, {}},
      {quick, {by("keeper", quick)}, "box", {}, {}}};
  std::vector<std::pair<Interval, TaskKind>> parts;
  std::vector<bool> held;
  std::vector<std::size_t> turns;
  for (const Task& task : tasks_of("A-1", morning.times, morning.shop)) {
    if (task.operation != "Soak") continue;
    CHECK(task.turns == 3);
    turns.push_back(task.turn);
    parts.emplace_back(task.at, task.kind);
    held.push_back(!task.hold.empty());
  }
  CHECK(parts == std::vector<std::pair<Interval, TaskKind>>{{begin_first, TaskKind::begins},
                                                            {first, TaskKind::by_itself},
                                                            {begin_second, TaskKind::begins},
                                                            {end_second, TaskKind::ends},
                                                            {second, TaskKind::by_itself},
                                                            {quick, TaskKind::begins}});
  CHECK(held == std::vector<bool>{false, true, false, true, false, true});
  CHECK(turns == std::vector<std::size_t>{0, 0, 1, 1, 1, 2});
}

TEST_CASE("what takes no time is a task, and bears its hold") {
  Morning morning;
  const Interval gate = on_day("2027-05-03", "13:30", "13:30");
  morning.times.planned.operations.at(1).runs = {{gate, {}, "", {}, {}}};
  const auto tasks = tasks_of("A-1", morning.times, morning.shop);
  const auto found = std::ranges::find(tasks, "Soak", &Task::operation);
  REQUIRE(found != tasks.end());
  CHECK(found->at == gate);
  CHECK(found->kind == TaskKind::work);
  CHECK(found->hold == "bubbling ended");
}

TEST_CASE("an operation keeps its number when the ones before it are left out") {
  Morning morning;
  morning.times.routing.erase(morning.times.routing.begin());
  morning.times.operations.erase(morning.times.operations.begin());
  morning.times.planned.operations.erase(morning.times.planned.operations.begin());
  CHECK(tasks_of("A-1", morning.times, morning.shop).front().number == 1);
}

TEST_CASE(
    "the shop's tasks stand by time, and what is done to the blanks of one bath is one, in any order of orders") {
  const Morning first, second;
  const auto one = tasks_of("A-1", first.times, first.shop);
  const auto two = tasks_of("A-2", second.times, second.shop);
  std::vector<std::string> before;
  for (const bool turned : {false, true}) {
    std::vector<Task> tasks = turned ? two : one;
    tasks.insert(tasks.end(), turned ? one.begin() : two.begin(), turned ? one.end() : two.end());
    const auto days = shop_tasks(tasks);
    REQUIRE(days.size() == 7);  // five of the bath's, and each one's glue, though they set at the same time
    CHECK(std::ranges::is_sorted(days, {}, [](const Task& task) { return task.at.from; }));
    std::vector<std::string> ids;
    for (const Task& task : days) ids.push_back(ids_of(task));
    CHECK(ids ==
          std::vector<std::string>{"A-1 A-2 ", "A-1 A-2 ", "A-1 A-2 ", "A-1 A-2 ", "A-1 A-2 ", "A-1 ", "A-2 "});
    CHECK(days.at(3).hold.empty());
    CHECK(days.at(4).hold == "bubbling ended");
  }
}
