// What is to be done from when to when. Times by hand.

#include "plan/task.h"

#include <doctest/doctest.h>

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

/// Sawing over a break, a bath that somebody begins and ends, glue that sets alone.
struct Morning {
  OperationFacts saw = facts_of_operation("Saw", "keeper");
  OperationFacts soak = facts_of_operation("Soak", "keeper");
  OperationFacts set = facts_of_operation("Set", "turner");
  OrderTimes times;

  Morning() {
    saw.limit = Given<std::string>{"oversize", Origin::shop, {}, {}};
    soak.hold = Given<std::string>{"bubbling ended", Origin::shop, {}, {}};
    times.routing = {&saw, &soak, &set};
    times.operations = {operation(HandsOn::throughout, ""), operation(HandsOn::at_both_ends, "another pot"),
                        operation(HandsOn::at_start, "")};
    const Interval before = on_day("2027-05-03", "11:00", "12:00");
    const Interval after = on_day("2027-05-03", "13:00", "13:30");
    const Interval in = on_day("2027-05-03", "13:30", "13:45");
    const Interval out = on_day("2027-05-04", "08:00", "08:10");
    const Interval sets = on_day("2027-05-04", "09:00", "15:00");
    times.planned.operations = {{before.from, after.to, {before, after}, {{{before.from, after.to}, ""}}},
                                {in.from, out.to, {in, out}, {{{in.from, out.to}, "pot"}}},
                                {sets.from, sets.to, {}, {{sets, ""}}}};
    times.planned.finish = sets.to;
  }
};

}  // namespace

TEST_CASE("a task is a stretch in which somebody is at it, or what goes on by itself") {
  const Morning morning;
  const auto tasks = tasks_of("A-1", morning.times);
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
  CHECK(tasks[4].kind == TaskKind::by_itself);
  CHECK(tasks[4].at.from == at("2027-05-03T13:30:00Z"));
  CHECK(tasks[4].at.to == at("2027-05-04T08:10:00Z"));
  CHECK(tasks[4].resource == "pot");
  CHECK(tasks[4].hold.empty());
  CHECK(tasks[5].kind == TaskKind::by_itself);
  CHECK(tasks[5].who == "turner");
  for (const Task& task : tasks) CHECK(task.orders == std::vector<std::string>{"A-1"});
}

TEST_CASE("loads that cool at once each have their own begin, and what somebody is at to its end is not by itself") {
  Morning morning;
  morning.times.operations.at(1).hands_on = HandsOn::at_start;
  const Interval first = on_day("2027-05-03", "13:30", "15:30");
  const Interval second = on_day("2027-05-03", "14:00", "16:00");
  const Interval begin_first = on_day("2027-05-03", "13:30", "13:40");
  const Interval begin_second = on_day("2027-05-03", "14:00", "14:10");
  const Interval quick = on_day("2027-05-03", "16:00", "16:10");
  morning.times.planned.operations.at(1) = {
      first.from, quick.to, {begin_first, begin_second, quick}, {{first, "box"}, {second, "box"}, {quick, "box"}}};
  std::vector<std::pair<Interval, TaskKind>> parts;
  for (const Task& task : tasks_of("A-1", morning.times)) {
    if (task.operation == "Soak") parts.emplace_back(task.at, task.kind);
  }
  CHECK(parts == std::vector<std::pair<Interval, TaskKind>>{{begin_first, TaskKind::begins},
                                                            {first, TaskKind::by_itself},
                                                            {begin_second, TaskKind::begins},
                                                            {second, TaskKind::by_itself},
                                                            {quick, TaskKind::begins}});
}

TEST_CASE("the shop's tasks stand by time, and what is done to several orders at once is one") {
  const Morning first;
  Morning second;
  second.times.planned.operations.at(2).runs = {{on_day("2027-05-04", "16:00", "22:00"), ""}};
  auto tasks = tasks_of("A-1", first.times);
  const auto more = tasks_of("A-2", second.times);
  tasks.insert(tasks.begin(), more.begin(), more.end());
  const auto days = shop_tasks(tasks);
  REQUIRE(days.size() == 7);  // five in common, and each one's glue
  CHECK(std::ranges::is_sorted(days, {}, [](const Task& task) { return task.at.from; }));
  for (std::size_t k = 0; k < 5; ++k) CHECK(days.at(k).orders == std::vector<std::string>{"A-2", "A-1"});
  CHECK(days.at(5).orders == std::vector<std::string>{"A-1"});
  CHECK(days.at(6).orders == std::vector<std::string>{"A-2"});
}
