#include "plan/routing/schedule.h"

#include <string_view>
#include <vector>

#include <doctest/doctest.h>

#include "working_week.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

WorkCalendar berlin() { return {weekdays_in("Europe/Berlin"), at("2027-01-25T08:00:00+01:00")}; }

Operation work(Duration length) { return {.length = length, .hands_on = HandsOn::throughout}; }

Operation loaded(Duration length, Duration hands_on) {
  return {.length = length, .hands_on = HandsOn::at_start, .hands_on_at_start = hands_on};
}

Operation loaded_and_unloaded(Duration length, Duration load, Duration unload) {
  return {.length = length,
          .hands_on = HandsOn::at_both_ends,
          .hands_on_at_start = load,
          .hands_on_at_end = unload,
          .unattended = true};
}

Operation within(Duration wait, Operation operation) {
  operation.longest_wait = wait;
  return operation;
}

Operation running_long(std::optional<Duration> longest, Operation operation) {
  operation.may_run_long = true;
  operation.longest = longest;
  return operation;
}

/// Two hours of sawing and weighing, a day in the oven, three hours under vacuum with somebody there, a soak of
/// twelve hours, a cure of three to four, three hours of turning.
std::vector<Operation> whole_routing() {
  Operation soak = running_long({}, loaded_and_unloaded(12 * hour, 0 * minute, 20 * minute));
  return {work(2 * hour),
          running_long({}, loaded_and_unloaded(24 * hour, 15 * minute, 15 * minute)),
          within(1 * hour, loaded(3 * hour, 30 * minute)),
          soak,
          within(30 * minute, running_long(4 * hour, loaded_and_unloaded(3 * hour, 10 * minute, 10 * minute))),
          work(3 * hour)};
}

/// The single operation's start and end when it is ready at a moment; in the shop of berlin().
Interval alone(const Operation& operation, std::string_view ready) {
  const auto planned = schedule(std::vector{operation}, berlin(), at(ready));
  REQUIRE(planned.has_value());
  return {planned->operations.at(0).start, planned->operations.at(0).end};
}

Obstacle obstacle_to(const std::vector<Operation>& routing) {
  const auto planned = schedule(routing, berlin(), at("2027-01-25T08:00:00+01:00"));
  REQUIRE(!planned.has_value());
  return planned.error();
}

}  // namespace

TEST_CASE("a whole routing is planned as a person would do it by hand") {
  // Monday 25 January 2027, 08:00. The vacuum finds no three hours before Tuesday's break, so it begins at 13:00, and
  // the oven goes on until 12:00 so that the dry blanks wait for an hour at most. The soak is over at 04:00 on
  // Wednesday and ends when somebody has had twenty minutes from 08:00 on.
  const auto planned = schedule(whole_routing(), berlin(), at("2027-01-25T08:00:00+01:00"));
  REQUIRE(planned.has_value());
  struct Row {
    std::string_view start, end;
  };
  const Row by_hand[] = {
      {"2027-01-25T08:00:00+01:00", "2027-01-25T10:00:00+01:00"},
      {"2027-01-25T10:00:00+01:00", "2027-01-26T12:00:00+01:00"},
      {"2027-01-26T13:00:00+01:00", "2027-01-26T16:00:00+01:00"},
      {"2027-01-26T16:00:00+01:00", "2027-01-27T08:20:00+01:00"},
      {"2027-01-27T08:20:00+01:00", "2027-01-27T11:20:00+01:00"},
      {"2027-01-27T11:20:00+01:00", "2027-01-27T15:20:00+01:00"},
  };
  for (std::size_t i = 0; i < std::size(by_hand); ++i) {
    CAPTURE(i);
    CHECK(planned->operations.at(i).start == at(by_hand[i].start));
    CHECK(planned->operations.at(i).end == at(by_hand[i].end));
  }
  CHECK(planned->finish == at("2027-01-27T15:20:00+01:00"));
  CHECK(when(planned->operations.at(1).hands_on()) ==
        std::vector<Interval>{{at("2027-01-25T10:00:00+01:00"), at("2027-01-25T10:15:00+01:00")},
                              {at("2027-01-26T11:45:00+01:00"), at("2027-01-26T12:00:00+01:00")}});
  CHECK(when(planned->operations.at(5).hands_on()) ==
        std::vector<Interval>{{at("2027-01-27T11:20:00+01:00"), at("2027-01-27T12:00:00+01:00")},
                              {at("2027-01-27T13:00:00+01:00"), at("2027-01-27T15:20:00+01:00")}});
}

TEST_CASE("the latest start leaves the vacuum its last three hours of the afternoon") {
  // Backwards by hand from Wednesday 17:00: turning from 14:00, cure from 11:00, soak from Tuesday 17:00, vacuum from
  // Tuesday 14:00, oven from Monday 14:00, sawing from Monday 11:00 over the break.
  const Instant due = end_of_work(weekdays_in("Europe/Berlin"), 2027y / 1 / 27).value();
  const auto planned = schedule(whole_routing(), berlin(), at("2027-01-25T08:00:00+01:00"));
  const Delivery delivered = delivery(whole_routing(), berlin(), planned.value(), due);
  CHECK(delivered.latest_start == at("2027-01-25T11:00:00+01:00"));
  CHECK(delivered.slack == 3h);
  CHECK(delivered.late_by == 0min);
}

TEST_CASE("an order that begins too late is late by the time from the due date to its finish") {
  // From 11:01 on the vacuum falls on Wednesday 08:00 to 11:00, the soak ends Thursday 08:20 as it did on Wednesday.
  const Instant due = end_of_work(weekdays_in("Europe/Berlin"), 2027y / 1 / 27).value();
  const auto planned = schedule(whole_routing(), berlin(), at("2027-01-25T11:01:00+01:00"));
  REQUIRE(planned.has_value());
  CHECK(planned->finish == at("2027-01-28T15:20:00+01:00"));
  const Delivery delivered = delivery(whole_routing(), berlin(), *planned, due);
  CHECK(delivered.slack == -1min);
  CHECK(delivered.late_by == 22h + 20min);
}

TEST_CASE("a soak of 24 hours is 24 hours long also when the clock is changed meanwhile") {
  // `zdump -v`: the clock goes forward on 2027-03-28 (Berlin) and 2027-03-14 (Chicago), back on 2027-10-31 and
  // 2027-11-07.
  struct Row {
    std::string_view zone, start, end;
  };
  const Row rows[] = {
      {"Europe/Berlin", "2027-03-27T12:00:00+01:00", "2027-03-28T13:00:00+02:00"},
      {"Europe/Berlin", "2027-10-30T12:00:00+02:00", "2027-10-31T11:00:00+01:00"},
      {"America/Chicago", "2027-03-13T12:00:00-06:00", "2027-03-14T13:00:00-05:00"},
      {"America/Chicago", "2027-11-06T12:00:00-05:00", "2027-11-07T11:00:00-06:00"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.start);
    WorkingTime working = weekdays_in(row.zone);
    working.week.at(5) = {{8h, 13h}};
    Operation soak = loaded(24 * hour, 30 * minute);
    soak.unattended = true;
    const auto planned = schedule(std::vector{soak}, WorkCalendar{working, at(row.start)}, at(row.start));
    REQUIRE(planned.has_value());
    CHECK(planned->operations.at(0).start == at(row.start));
    CHECK(planned->operations.at(0).end == at(row.end));
  }
}

TEST_CASE("a cure runs long over the break where it may, and starts later where it may not") {
  const Operation exact = loaded_and_unloaded(3 * hour, 10 * minute, 10 * minute);
  const Operation up_to_four = running_long(4 * hour, exact);
  CHECK(alone(up_to_four, "2027-01-25T09:30:00+01:00") ==
        Interval{at("2027-01-25T09:30:00+01:00"), at("2027-01-25T13:10:00+01:00")});
  CHECK(alone(exact, "2027-01-25T09:30:00+01:00") ==
        Interval{at("2027-01-25T10:10:00+01:00"), at("2027-01-25T13:10:00+01:00")});
  // On Friday at 15:30 nobody is there to end it within four hours: it begins on Monday.
  CHECK(alone(up_to_four, "2027-01-29T15:30:00+01:00") ==
        Interval{at("2027-02-01T08:00:00+01:00"), at("2027-02-01T11:00:00+01:00")});
  CHECK(alone(running_long({}, exact), "2027-01-29T15:30:00+01:00") ==
        Interval{at("2027-01-29T15:30:00+01:00"), at("2027-02-01T08:10:00+01:00")});
}

TEST_CASE("a pump that may not run unattended starts when the whole of it fits before the break") {
  CHECK(alone(loaded(150 * minute, 10 * minute), "2027-01-25T10:00:00+01:00") ==
        Interval{at("2027-01-25T13:00:00+01:00"), at("2027-01-25T15:30:00+01:00")});
}

TEST_CASE("work throughout pauses, unless it may last no longer than its hours") {
  CHECK(alone(work(3 * hour), "2027-01-25T10:00:00+01:00") ==
        Interval{at("2027-01-25T10:00:00+01:00"), at("2027-01-25T14:00:00+01:00")});
  Operation gluing = work(3 * hour);
  gluing.longest = 3 * hour;
  CHECK(alone(gluing, "2027-01-25T10:00:00+01:00") ==
        Interval{at("2027-01-25T13:00:00+01:00"), at("2027-01-25T16:00:00+01:00")});
}

TEST_CASE("wet blanks that would wait too long for the oven are drained later") {
  // Draining takes an hour; the oven, watched for four hours, begins at 13:00. So draining ends at 12:00, not 09:00.
  const std::vector<Operation> routing{work(1 * hour), within(1 * hour, loaded(4 * hour, 10 * minute))};
  const auto planned = schedule(routing, berlin(), at("2027-01-25T08:05:00+01:00"));
  REQUIRE(planned.has_value());
  CHECK(planned->operations.at(0).start == at("2027-01-25T11:00:00+01:00"));
  CHECK(planned->operations.at(0).end == at("2027-01-25T12:00:00+01:00"));
  CHECK(planned->operations.at(1).start == at("2027-01-25T13:00:00+01:00"));
}

TEST_CASE("an operation waits until its vessel is free") {
  Operation bath = loaded(1 * hour, 10 * minute);
  bath.taken = {{at("2027-01-25T08:00:00+01:00"), at("2027-01-25T09:30:00+01:00")},
                {at("2027-01-25T10:00:00+01:00"), at("2027-01-25T13:45:00+01:00")}};
  CHECK(alone(bath, "2027-01-25T08:00:00+01:00") ==
        Interval{at("2027-01-25T13:45:00+01:00"), at("2027-01-25T14:45:00+01:00")});
}

TEST_CASE("a soak lasts twice the vacuum as it really is, also where that runs through the night") {
  // By hand. Hours of work 08:00-12:00 and 13:00-17:00; the pump may run alone, ten minutes of somebody at both ends.
  constexpr Duration hand = 10 * minute;
  const Operation vacuum = running_long(std::nullopt, loaded_and_unloaded(6 * hour, hand, hand));
  Operation soak = running_long(std::nullopt, loaded_and_unloaded(12 * hour, hand, hand));
  const auto bathed = [&](std::vector<Operation> routing, std::string_view from) {
    routing.back().lasts = Operation::Share{routing.size() - 2, 2, 0 * minute};
    const auto planned = schedule(routing, berlin(), at(std::string{from}));
    REQUIRE(planned.has_value());
    const auto& ops = planned->operations;
    CHECK(ops.back().end - ops.back().start >= 2 * (ops.at(ops.size() - 2).end - ops.at(ops.size() - 2).start));
    return std::pair{ops.at(ops.size() - 2), ops.back()};
  };
  const auto [day, night] = bathed({vacuum, soak}, "2027-01-25T10:00:00+01:00");
  CHECK(day.end == at("2027-01-25T16:00:00+01:00"));
  CHECK(night.end == at("2027-01-26T08:10:00+01:00"));
  // From 13:00 it would run until 08:10 the next morning, and the soak 38 h 20 min, to Thursday's 08:10. Begun on
  // Tuesday at 08:00 it ends at 14:00, and the soak on Wednesday.
  const auto [next_day, next_night] = bathed({vacuum, soak}, "2027-01-25T13:00:00+01:00");
  CHECK(next_day.start == at("2027-01-26T08:00:00+01:00"));
  CHECK(next_night.end == at("2027-01-27T08:10:00+01:00"));
  // Dry blanks that may not wait go in on Monday: 14:00 to 08:10, 18 h 10 min, so the soak ends on Wednesday at
  // 20:30 at the earliest, and somebody is there on Thursday.
  const auto [at_once, long_soak] =
      bathed({work(1 * hour), within(2 * hour, vacuum), soak}, "2027-01-25T13:00:00+01:00");
  CHECK(at_once.start == at("2027-01-25T14:00:00+01:00"));
  CHECK(at_once.end == at("2027-01-26T08:10:00+01:00"));
  CHECK(long_soak.end == at("2027-01-28T08:10:00+01:00"));
}

TEST_CASE("planned times are whole minutes, rounded so that nothing is too short or waits too long") {
  CHECK(alone(work(90.2 * second), "2027-01-25T08:00:30+01:00") ==
        Interval{at("2027-01-25T08:01:00+01:00"), at("2027-01-25T08:03:00+01:00")});
  // 0.1 h is 6 minutes, although 0.1 has no exact binary form.
  CHECK(alone(work(0.1 * hour), "2027-01-25T08:00:00+01:00").to == at("2027-01-25T08:06:00+01:00"));
  // Least and most alike, and no whole minute: rounding up wins by less than a minute.
  CHECK(alone(running_long(90.5 * minute, loaded(90.5 * minute, 1 * minute)), "2027-01-25T08:00:00+01:00").to ==
        at("2027-01-25T09:31:00+01:00"));
}

TEST_CASE("a routing without operations is finished when it begins") {
  const auto planned = schedule({}, berlin(), at("2027-01-25T07:00:00+01:00"));
  REQUIRE(planned.has_value());
  CHECK(planned->finish == at("2027-01-25T07:00:00+01:00"));
}

TEST_CASE("what cannot be planned is said, with the operation that stands in the way") {
  const Operation short_work = work(1 * hour);
  const auto check = [](const Obstacle& found, Impossible why, std::size_t operation) {
    CHECK(reason(found.why).words == reason(why).words);
    CHECK(found.operation == operation);
  };
  check(obstacle_to({short_work, loaded(5 * hour, 10 * minute)}), Impossible::attended_above_stretch, 1);
  check(obstacle_to({short_work, loaded_and_unloaded(24 * hour, 5 * hour, 0 * hour)}),
        Impossible::hands_on_above_stretch, 1);
  check(obstacle_to({loaded_and_unloaded(1 * hour, 40 * minute, 40 * minute)}), Impossible::hands_on_above_length, 0);
  check(obstacle_to({running_long(1 * hour, loaded(2 * hour, 0 * hour))}), Impossible::longest_below_length, 0);
  // Ten hours, unattended, but loaded and unloaded by somebody: no working day is that long, and no night that short.
  check(obstacle_to({short_work, loaded_and_unloaded(10 * hour, 10 * minute, 10 * minute)}),
        Impossible::no_start_fits, 1);
  // The first fills a half day, whichever; the second cannot begin before the break or the night is over.
  Operation half_day = work(4 * hour);
  half_day.longest = 4 * hour;
  check(obstacle_to({half_day, within(30 * minute, loaded(4 * hour, 10 * minute)), short_work}),
        Impossible::wait_cannot_be_met, 1);
  check(obstacle_to({short_work, work(7000 * hour)}), Impossible::beyond_horizon, 1);
  check(obstacle_to({short_work, running_long({}, loaded_and_unloaded(1200 * (24 * hour), 0 * hour, 0 * hour))}),
        Impossible::beyond_horizon, 1);
}

TEST_CASE("a shop in which nobody works cannot plan anything") {
  const Instant now = at("2027-01-25T08:00:00+01:00");
  const auto planned = schedule(whole_routing(), WorkCalendar{WorkingTime{}, now}, now);
  REQUIRE(!planned.has_value());
  CHECK(planned.error().why == Impossible::no_working_time);
}

TEST_CASE("what runs is begun no later so that it could end in time, and a soak shares with all of it") {
  // Monday 16:55: a vacuum since 13:55 that may run until 01:55, and nobody is there before Tuesday, 08:00. It ends at
  // 08:15, 18 h 20 min after it began; the soak lasts twice that.
  const Instant now = at("2027-01-25T16:55:00+01:00");
  Operation vacuum = running_long(9 * hour, loaded_and_unloaded(1 * hour, 0 * minute, 15 * minute));
  vacuum.begun = now - 3h;
  Operation soak = running_long({}, loaded_and_unloaded(1 * hour, 0 * minute, 0 * minute));
  soak.lasts = Operation::Share{0, 2, -3 * hour};
  const auto planned = schedule(std::vector{vacuum, soak}, berlin(), now);
  REQUIRE(planned.has_value());
  CHECK(planned->operations.at(0).end == at("2027-01-26T08:15:00+01:00"));
  CHECK(planned->operations.at(1).end - planned->operations.at(1).start == 36h + 40min);
}
