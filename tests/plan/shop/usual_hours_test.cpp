// When a shop is usually at work. By hand.

#include "plan/shop/usual_hours.h"

#include <doctest/doctest.h>

#include "working_week.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

/// 08:00 to 17:00, on Friday to 13:00.
WorkingTime short_friday() {
  WorkingTime working{find_zone("Europe/Vienna").value(), {}, {}};
  for (std::size_t day = 0; day < 5; ++day) working.week.at(day) = {{8h, day == 4 ? 13h : 17h}};
  return working;
}

}  // namespace

TEST_CASE("every hour of a plain week is usual, that of a short day as well, in summer as in winter") {
  const UsualHours usual{short_friday()};
  for (const char* moment : {"2027-05-03T08:00:00+02:00", "2027-05-07T12:59:00+02:00", "2027-12-06T08:00:00+01:00",
                             "2027-12-06T16:59:00+01:00"}) {
    CAPTURE(moment);
    CHECK(usual.have(at(moment)));
  }
}

TEST_CASE("nights and Sundays are not usual, nor what one day or a half one has beyond the others") {
  WorkingTime working = short_friday();
  working.week.at(1).push_back({19h, 21h});  // Tuesday evening
  working.week.at(5) = {{8h, 12h}};
  const UsualHours usual{working};
  for (const char* moment : {"2027-05-03T07:59:00+02:00", "2027-05-03T17:00:00+02:00", "2027-05-04T19:00:00+02:00",
                             "2027-05-08T08:00:00+02:00", "2027-05-09T10:00:00+02:00"}) {
    CAPTURE(moment);
    CHECK_FALSE(usual.have(at(moment)));
  }
  CHECK(usual.have(at("2027-05-07T09:00:00+02:00")));
}

TEST_CASE("a shop that works as long on Saturday as on other days usually does") {
  WorkingTime working = short_friday();
  working.week.at(5) = {{8h, 16h}};
  CHECK(UsualHours{working}.have(at("2027-05-08T09:00:00+02:00")));
}
