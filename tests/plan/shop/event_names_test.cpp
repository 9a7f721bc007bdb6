// What events are called, in whichever file they stand and however they are planned anew.

#include "plan/shop/event_names.h"

#include <doctest/doctest.h>

#include <set>

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

const Instant may_3 = std::chrono::sys_days{2027y / 5 / 3} + 8h;

Task task(const std::string& operation, Instant from, std::size_t number = 0) {
  Task one;
  one.operation = operation;
  one.number = number;
  one.at = {from, from + 1h};
  one.run_from = from;
  one.orders = {{"A-1", 3}};
  return one;
}

Task in_bath(Task one, std::size_t bath) {
  one.bath = bath;
  return one;
}

const BatchNames batches{{"K7T-4X54", "NG7-32GX"}, {{"B-12", "K7T-4X54"}}};

std::vector<std::string> names_of(const std::vector<Task>& tasks) {
  return event_names(tasks, batches, home_of_events("Two Brooks", false));
}

}  // namespace

TEST_CASE("what is done to a bath's blanks bears their lowest ID, what an order goes through alone the order's") {
  Task end = in_bath(task("Bath: vacuum", may_3), 1);
  end.kind = TaskKind::ends;
  Task second = task("Turn, then sand", may_3 + 24h);
  second.run_from = may_3;
  second.part = 1;
  CHECK(names_of({end, second}) ==
        std::vector<std::string>{"NG7-32GX.bath-vacuum.1e1@two-brooks", "A-1.turn-then-sand.1w2@two-brooks"});
  CHECK(due_event_name("A-1", home_of_events("Two Brooks", false)) == "A-1.due@two-brooks");
}

TEST_CASE("a name stays when operations and orders come, when times move and when the bath gets its name") {
  const auto before = names_of({in_bath(task("Vacuum", may_3), 0), task("Turn", may_3 + 48h)});
  Task begun = task("Vacuum", may_3 - 3h, 7);
  begun.batch = "B-12";
  begun.is = RunIs::running;
  begun.orders.insert(begun.orders.begin(), {"A-0", 2});
  const auto after = names_of({begun, task("Weigh", may_3 + 24h, 8), task("Turn", may_3 + 72h, 9)});
  CHECK(after.at(0) == before.at(0));
  CHECK(after.at(2) == before.at(1));
}

TEST_CASE("no two events have one name: two times in the oven, two operations of one name, two runs at once") {
  Task other_oven = in_bath(task("Dry", may_3), 0);
  other_oven.resource = "small oven";
  const std::vector<Task> tasks{in_bath(task("Dry", may_3), 0),
                                other_oven,
                                in_bath(task("Dry", may_3 + 5h), 0),
                                task("Weigh!", may_3, 1),
                                task("weigh", may_3, 2),
                                task("Set", may_3, 3),
                                task("Set", may_3, 3)};
  const auto names = names_of(tasks);
  CHECK(std::set<std::string>(names.begin(), names.end()).size() == tasks.size());
  CHECK(names.at(2) == "K7T-4X54.dry.3w1@two-brooks");
}

TEST_CASE("a name is plain, and no longer than every reader keeps it (RFC 5545, section 3.8.4.7)") {
  Task longest = task("", may_3);
  for (int i = 0; i < 100; ++i) longest.operation += "Сушка ";
  longest.orders.front().id = std::string(40, 'x');
  const auto home = home_of_events(longest.operation, true);
  const std::string name = event_names(std::vector{longest}, batches, home).front();
  CHECK(name.size() <= 255);
  CHECK(name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-.@") == std::string::npos);
}

TEST_CASE("a draft's events are others than those that are handed out") {
  const std::vector tasks{task("Turn", may_3)};
  CHECK(event_names(tasks, batches, home_of_events("Two Brooks", true)) != names_of(tasks));
}
