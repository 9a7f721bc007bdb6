#include "plan/routing/working_time.h"

#include <string_view>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "diagnose/failure.h"
#include "working_week.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

/// Sundays only, which are the days of the clock changes.
WorkingTime sundays_in(std::string_view zone, std::vector<WorkStretch> stretches) {
  WorkingTime working{find_zone(zone).value(), {}, {}};
  working.week.at(6) = std::move(stretches);
  return working;
}

}  // namespace

TEST_CASE("the next working instant is now, after the break, on the next day or after the weekend") {
  // 25 January 2027 is a Monday (ISO 8601: 2027-01-01 is 2026-W53-5). Worked by hand.
  const WorkCalendar calendar{weekdays_in("Europe/Berlin"), at("2027-01-25T00:00:00+01:00")};
  CHECK(next_working(calendar, at("2027-01-25T08:00:00+01:00")) == at("2027-01-25T08:00:00+01:00"));
  CHECK(next_working(calendar, at("2027-01-25T11:59:00+01:00")) == at("2027-01-25T11:59:00+01:00"));
  CHECK(next_working(calendar, at("2027-01-25T12:00:00+01:00")) == at("2027-01-25T13:00:00+01:00"));
  CHECK(next_working(calendar, at("2027-01-25T17:00:00+01:00")) == at("2027-01-26T08:00:00+01:00"));
  CHECK(next_working(calendar, at("2027-01-29T17:00:00+01:00")) == at("2027-02-01T08:00:00+01:00"));
}

TEST_CASE("the last working instant reaches to the end of a stretch") {
  const WorkCalendar calendar{weekdays_in("Europe/Berlin"), at("2027-01-25T00:00:00+01:00")};
  CHECK(last_working(calendar, at("2027-01-25T12:30:00+01:00")) == at("2027-01-25T12:00:00+01:00"));
  CHECK(last_working(calendar, at("2027-01-25T12:00:00+01:00")) == at("2027-01-25T12:00:00+01:00"));
  CHECK(last_working(calendar, at("2027-01-25T09:30:00+01:00")) == at("2027-01-25T09:30:00+01:00"));
  CHECK(last_working(calendar, at("2027-01-25T08:00:00+01:00")) == at("2027-01-22T17:00:00+01:00"));
}

TEST_CASE("the stretch that contains an instant ends at the break, and there is none outside") {
  const WorkCalendar calendar{weekdays_in("Europe/Berlin"), at("2027-01-25T00:00:00+01:00")};
  CHECK(end_of_stretch(calendar, at("2027-01-25T08:00:00+01:00")) == at("2027-01-25T12:00:00+01:00"));
  CHECK(end_of_stretch(calendar, at("2027-01-25T13:30:00+01:00")) == at("2027-01-25T17:00:00+01:00"));
  CHECK(!end_of_stretch(calendar, at("2027-01-25T12:00:00+01:00")));
  CHECK(!end_of_stretch(calendar, at("2027-01-25T07:59:00+01:00")));
}

TEST_CASE("hands-on work pauses over breaks, nights, weekends and days off") {
  WorkingTime working = weekdays_in("Europe/Berlin");
  working.days_off = {2027y / 2 / 1};
  const WorkCalendar calendar{working, at("2027-01-25T00:00:00+01:00")};
  CHECK(add_work(calendar, at("2027-01-25T11:00:00+01:00"), 2h) == at("2027-01-25T14:00:00+01:00"));
  CHECK(add_work(calendar, at("2027-01-25T11:00:00+01:00"), 1h) == at("2027-01-25T12:00:00+01:00"));
  CHECK(add_work(calendar, at("2027-01-25T16:00:00+01:00"), 90min) == at("2027-01-26T08:30:00+01:00"));
  // Friday 16:00: one hour that day, then Monday is off, then nine hours from Tuesday 08:00: eight there, one on
  // Wednesday.
  CHECK(add_work(calendar, at("2027-01-29T16:00:00+01:00"), 10h) == at("2027-02-03T09:00:00+01:00"));
  CHECK(add_work(calendar, at("2027-01-25T06:00:00+01:00"), 0h) == at("2027-01-25T08:00:00+01:00"));
  CHECK(work_between(calendar, at("2027-01-25T11:00:00+01:00"), at("2027-01-25T14:00:00+01:00")) ==
        std::vector<Interval>{{at("2027-01-25T11:00:00+01:00"), at("2027-01-25T12:00:00+01:00")},
                              {at("2027-01-25T13:00:00+01:00"), at("2027-01-25T14:00:00+01:00")}});
}

TEST_CASE("a stretch across a clock change is as long as it really is") {
  // `zdump -v`: Berlin changes at 02:00 on 2027-03-28 and 03:00 on 2027-10-31; Chicago at 02:00 on 2027-03-14 and
  // 2027-11-07.
  struct Row {
    std::string_view zone, begins, ends;
    std::chrono::minutes long_;
  };
  const Row rows[] = {
      {"Europe/Berlin", "2027-03-28T00:00:00+01:00", "2027-03-28T06:00:00+02:00", 5h},
      {"Europe/Berlin", "2027-10-31T00:00:00+02:00", "2027-10-31T06:00:00+01:00", 7h},
      {"America/Chicago", "2027-03-14T00:00:00-06:00", "2027-03-14T06:00:00-05:00", 5h},
      {"America/Chicago", "2027-11-07T00:00:00-05:00", "2027-11-07T06:00:00-06:00", 7h},
  };
  for (const Row& row : rows) {
    CAPTURE(row.begins);
    const WorkCalendar calendar{sundays_in(row.zone, {{0h, 6h}}), at(row.begins)};
    CHECK(end_of_stretch(calendar, at(row.begins)) == at(row.ends));
    CHECK(add_work(calendar, at(row.begins), row.long_) == at(row.ends));
    CHECK(calendar.work_before(at(row.ends)) - calendar.work_before(at(row.begins)) == row.long_);
  }
}

TEST_CASE("a stretch that the spring change leaves out is no working time") {
  const WorkingTime working = sundays_in("Europe/Berlin", {{2h + 10min, 2h + 50min}});
  const WorkCalendar calendar{working, at("2027-03-27T00:00:00+01:00")};
  CHECK(next_working(calendar, at("2027-03-27T12:00:00+01:00")) == at("2027-04-04T02:10:00+02:00"));
}

TEST_CASE("the longest stretch joins those that touch, across midnight and over the autumn change too") {
  WorkingTime night{find_zone("Europe/Berlin").value(), {}, {}};
  night.week.at(5) = {{22h, 24h}};
  night.week.at(6) = {{3h, 5h}, {0h, 3h}};
  // Saturday 22:00 to Sunday 05:00: seven hours, and eight on 2027-10-31.
  const WorkCalendar calendar{night, at("2027-10-25T00:00:00+02:00")};
  CHECK(longest_stretch(calendar) == 8h);
  CHECK(end_of_stretch(calendar, at("2027-10-30T22:30:00+02:00")) == at("2027-10-31T05:00:00+01:00"));
  CHECK(longest_stretch(WorkCalendar{weekdays_in("America/Chicago"), at("2027-01-25T00:00:00Z")}) == 4h);
}

TEST_CASE("a shop without working hours has no next working instant") {
  const WorkCalendar calendar{WorkingTime{}, at("2027-01-25T00:00:00Z")};
  CHECK(!next_working(calendar, at("2027-01-25T00:00:00Z")));
  CHECK(!last_working(calendar, at("2027-01-25T00:00:00Z")));
  CHECK(!add_work(calendar, at("2027-01-25T00:00:00Z"), 1h));
  CHECK(longest_stretch(calendar) == 0min);
  CHECK(!end_of_work(WorkingTime{}, 2027y / 1 / 25));
}

TEST_CASE("a due date ends with its working time, or with the one before when nobody works that day") {
  WorkingTime working = weekdays_in("America/Chicago");
  working.days_off = {2027y / 1 / 29};
  CHECK(end_of_work(working, 2027y / 1 / 28) == at("2027-01-28T17:00:00-06:00"));
  CHECK(end_of_work(working, 2027y / 1 / 31) == at("2027-01-28T17:00:00-06:00"));
}

TEST_CASE("time promised to something else is taken out of the calendar") {
  const WorkCalendar whole{weekdays_in("Europe/Berlin"), at("2027-01-25T00:00:00+01:00")};
  const std::vector<Interval> promised{
      {at("2027-01-25T11:00:00+01:00"), at("2027-01-25T14:00:00+01:00")},
      {at("2027-01-25T09:00:00+01:00"), at("2027-01-25T09:30:00+01:00")},
      {at("2027-01-25T09:15:00+01:00"), at("2027-01-25T10:00:00+01:00")},
      {at("2027-01-26T00:00:00+01:00"), at("2027-01-27T00:00:00+01:00")},
  };
  const WorkCalendar left = whole.without(promised);
  CHECK(work_between(left, at("2027-01-25T00:00:00+01:00"), at("2027-01-27T09:00:00+01:00")) ==
        std::vector<Interval>{{at("2027-01-25T08:00:00+01:00"), at("2027-01-25T09:00:00+01:00")},
                              {at("2027-01-25T10:00:00+01:00"), at("2027-01-25T11:00:00+01:00")},
                              {at("2027-01-25T14:00:00+01:00"), at("2027-01-25T17:00:00+01:00")},
                              {at("2027-01-27T08:00:00+01:00"), at("2027-01-27T09:00:00+01:00")}});
}

TEST_CASE("a stretch that ends before it begins is a broken promise of ours") {
  CHECK_THROWS_AS((WorkCalendar{sundays_in("Europe/Berlin", {{12h, 8h}}), at("2027-01-25T00:00:00Z")}),
                  BrokenPromise);
  CHECK_THROWS_AS((WorkCalendar{sundays_in("Europe/Berlin", {{12h, 25h}}), at("2027-01-25T00:00:00Z")}),
                  BrokenPromise);
}
