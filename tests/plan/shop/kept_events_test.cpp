// What is kept of the events that were handed out, and what a later plan makes of them.

#include "plan/shop/kept_events.h"

#include <doctest/doctest.h>

#include "plan/shop/kept_plan.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

const Instant now = std::chrono::sys_days{2027y / 5 / 3} + 12h;

KeptEvent event(const std::string& uid, int sequence, Instant from) {
  return {uid, "Saw, 3 of 5", sequence, {from, from + 1h}, 4'294'967'295, false};
}

}  // namespace

TEST_CASE("events come back from the lines that they are kept in, and a plan's other lines are passed over") {
  KeptEvent due = event("A-1.a.due@here", 4, now);
  due.operation = "";
  due.cancelled = true;
  const std::vector events{due, event("A-1.saw.1w1@here", 0, now), event("A-1.saw.1w2@here", 2, now - 7s),
                           event("A-1.saw.1w2@there", 3, now)};
  const std::string operations = "1809345600 1809349200 3 Saw\n";
  const std::string lines = operations + kept_events({events.at(3), events.at(1), events.at(2), events.at(0)});
  CHECK(read_kept_events(lines) == events);
  REQUIRE(read_kept_plan(lines).size() == 1);
  CHECK(read_kept_plan(lines).front().name == "Saw");
  CHECK(whose(event("NG7-32GX.saw.1w1@here", 0, now)) == "NG7-32GX");
  CHECK(whose(events.at(0)) == "A-1.a");
  CHECK(read_kept_events("event\nevent 1 2\nevent x 2 3 4\nevent 1w1 1 2 3 4x\nof\nhome\n\n").empty());
}

TEST_CASE("each run of an operation is kept, and an operation is read back from the first start to the last end") {
  OperationFacts cure;
  cure.name.value = "Cure";
  PlacedTimes times;
  times.routing = {&cure};
  PlannedRun past, first, second;
  past.is = RunIs::past;
  first.at = {now, now + 1h};
  first.blanks = 3;
  second.at = {now + 2h, now + 3h};
  second.blanks = 1;
  times.planned.operations = {PlannedOperation{now, now + 3h, {past, first, second}}};
  const std::string lines = kept_plan(times);
  const auto runs = read_kept_runs(lines);
  REQUIRE(runs.size() == 2);
  CHECK(runs.at(0).at.to == now + 1h);
  CHECK(runs.at(1).blanks == 1);
  const auto whole = read_kept_plan(lines);
  REQUIRE(whole.size() == 1);
  CHECK(whole.front().at.from == now);
  CHECK(whole.front().at.to == now + 3h);
  CHECK(whole.front().blanks == 4);
}

TEST_CASE("an operation moved where a clock shows another minute at its begin or its end") {
  OperationFacts saw;
  saw.name.value = "Saw";
  PlacedTimes times;
  times.routing = {&saw};
  const auto moved = [&](Instant from, Instant to) {
    PlannedRun run;
    run.at = {from, to};
    times.planned.operations = {PlannedOperation{from, to, {run}}};
    return moved_since({{"Saw", {now, now + 1h}, 3}}, times).size();
  };
  CHECK(moved(now, now + 1h) == 0);
  CHECK(moved(now + 59s, now + 1h + 30s) == 0);
  CHECK(moved(now + 60s, now + 1h) == 1);
  CHECK(moved(now, now + 59min) == 1);
}

TEST_CASE("of an operation of which a part is done since, the rest is held against its own end") {
  OperationFacts cure;
  cure.name.value = "Cure";
  PlacedTimes times;
  times.routing = {&cure};
  const auto moved = [&](int planned, Instant to) {
    PlannedRun done, rest;
    done.at = {now, now + 24h};
    done.blanks = 3;
    done.is = RunIs::past;
    rest.at = {to - 24h, to};
    rest.blanks = 1;
    times.planned.operations = {PlannedOperation{now, to, {done, rest}}};
    return moved_since({{"Cure", {now, now + 96h}, planned}}, times);
  };
  CHECK(moved(4, now + 96h).empty());
  REQUIRE(moved(4, now + 120h).size() == 1);
  CHECK(moved(4, now + 120h).front().before == Interval{now + 96h, now + 96h});
  CHECK(moved(1, now + 96h).size() == 1);  // those were done already when it was planned
}

TEST_CASE("an event that tells what it told keeps its sequence; another one gets one above all before it") {
  KeptEvent cancelled = event("back", 5, now);
  cancelled.cancelled = true;
  const HandedOut before{
      {{"A-1", {event("same", 3, now), event("moved", 3, now), cancelled}}, {"A-2", {event("same", 2, now - 24h)}}},
      7};
  std::vector planned{event("same", 0, now), event("moved", 0, now), event("back", 0, now), event("new", 0, now)};
  planned.at(1).facts = 1;
  set_sequences(planned, before.newest(), before.prints);
  CHECK(planned.at(0).sequence == 3);
  CHECK(planned.at(1).sequence == 7);
  CHECK(planned.at(2).sequence == 7);
  CHECK(planned.at(3).sequence == 7);
}

TEST_CASE("what is planned no more is cancelled once, and told of until its time is over") {
  KeptEvent told = event("told", 5, now);
  told.cancelled = true;
  const std::vector before{event("planned", 1, now), event("gone", 2, now + 24h), event("over", 3, now - 1h), told};
  const HandedOut handed_out{{{"A-1", before}}, 7};
  const auto is_planned = [](const std::string& uid) { return uid == "planned"; };
  const auto cancelled = cancelled_of(before, handed_out.newest(), is_planned, now);
  REQUIRE(cancelled.size() == 2);
  CHECK(cancelled.at(0).uid == "gone");
  CHECK(cancelled.at(0).cancelled);
  CHECK(cancelled.at(0).sequence == 3);
  CHECK(cancelled.at(1) == told);
}

TEST_CASE("a task tells something else when its times, place, people, limits or blanks change") {
  Task task;
  task.at = {now, now + 1h};
  task.orders = {{"A-1", 3}};
  const auto before = facts_of(task, false);
  CHECK(facts_of(task, true) != before);
  const auto changed = [&](auto change) {
    Task other = task;
    change(other);
    return facts_of(other, false) != before;
  };
  CHECK(changed([](Task& t) { t.at.to += 1min; }));
  CHECK(changed([](Task& t) { t.who = "turner"; }));
  CHECK(changed([](Task& t) { t.resource = "pot"; }));
  CHECK(changed([](Task& t) { t.batch = "B-1"; }));
  CHECK(changed([](Task& t) { t.limit = "dry"; }));
  CHECK(changed([](Task& t) { t.orders.front().blanks = 4; }));
  CHECK(changed([](Task& t) { t.orders.push_back({"A-2", 1}); }));
  CHECK(changed([](Task& t) { t.bath = 2; }));  // as the newest card has it
}
