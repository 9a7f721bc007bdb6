#include "sheet/paper/said_times.h"

#include <chrono>

#include "../template_for_test.h"

using namespace blankwright;
using namespace std::chrono_literals;

TEST_CASE("a planned time reads as people say it, in the template's words") {
  // ISO 8601 week dates: 2027-01-01 is 2026-W53-5, a Friday, so 25 January is a Monday and 31 January a Sunday.
  const auto berlin = find_zone("Europe/Berlin");
  REQUIRE(berlin.has_value());
  Template t = template_for_test("A4");
  const Instant monday = std::chrono::sys_days{2027y / 1 / 25} + 7h + 30min;
  CHECK(moment_text(t, *berlin, monday) == "Mon 25 Jan 08:30");
  CHECK(moment_text(t, *berlin, std::chrono::sys_days{2027y / 1 / 31} + 8h + 5min) == "Sun 31 Jan 09:05");
  CHECK(dated_text(t, *berlin, monday) == "Mon 25 Jan 2027 08:30");
  CHECK(day_text(t, Date{2027y / 1 / 5}) == "5 Jan 2027");
  // Where a day is written with a point, all of them have it.
  t.spelling.after_day = ".";
  CHECK(moment_text(t, *berlin, monday) == "Mon 25. Jan 08:30");
  CHECK(dated_text(t, *berlin, monday) == "Mon 25. Jan 2027 08:30");
  CHECK(weekday_text(t, Date{2027y / 1 / 25}) == "Mon 25. Jan 2027");
  CHECK(day_text(t, Date{2027y / 1 / 5}) == "5. Jan 2027");
}
