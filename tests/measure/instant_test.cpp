#include "measure/instant.h"

#include <array>
#include <string>
#include <thread>
#include <vector>

#include <doctest/doctest.h>

#include "measure/nearest.h"

using namespace blankwright;
using namespace std::chrono_literals;
using std::chrono::sys_days;

namespace {

Zone zone_named(std::string_view name) {
  const auto zone = find_zone(name);
  REQUIRE(zone.has_value());
  return *zone;
}

Instant utc(Date date, std::chrono::seconds since_midnight) { return sys_days{date} + since_midnight; }

constexpr Date spring_europe = 2027y / 3 / 28;
constexpr Date autumn_europe = 2027y / 10 / 31;
constexpr Date spring_america = 2027y / 3 / 14;
constexpr Date autumn_america = 2027y / 11 / 7;

}  // namespace

TEST_CASE("an instant is shown with the offset that the zone has then") {
  // IANA time zone database, as listed by `zdump -v -c 2027,2028`: the last second before each change and the first
  // after.
  struct Row {
    std::string_view zone;
    Instant instant;
    std::string_view shown;
  };
  const Row listed[] = {
      {"Europe/Berlin", utc(spring_europe, 0h + 59min + 59s), "2027-03-28T01:59:59+01:00"},
      {"Europe/Berlin", utc(spring_europe, 1h), "2027-03-28T03:00:00+02:00"},
      {"Europe/Berlin", utc(autumn_europe, 0h + 59min + 59s), "2027-10-31T02:59:59+02:00"},
      {"Europe/Berlin", utc(autumn_europe, 1h), "2027-10-31T02:00:00+01:00"},
      {"America/Chicago", utc(spring_america, 7h + 59min + 59s), "2027-03-14T01:59:59-06:00"},
      {"America/Chicago", utc(spring_america, 8h), "2027-03-14T03:00:00-05:00"},
      {"America/Chicago", utc(autumn_america, 6h + 59min + 59s), "2027-11-07T01:59:59-05:00"},
      {"America/Chicago", utc(autumn_america, 7h), "2027-11-07T01:00:00-06:00"},
  };
  for (const Row& row : listed) {
    CAPTURE(row.shown);
    const Zone zone = zone_named(row.zone);
    CHECK(local_text(zone, row.instant) == row.shown);
    CHECK(parse_instant(row.shown, zone) == row.instant);
  }
}

TEST_CASE("a zone made without a name is UTC, and needs no zone data") {
  const Zone zone;
  CHECK(zone.name() == "UTC");
  CHECK(local_text(zone, utc(2027y / 1 / 29, 8h + 30min)) == "2027-01-29T08:30:00+00:00");
  CHECK(instant_of(zone, 2027y / 1 / 29, 8h) == utc(2027y / 1 / 29, 8h));
}

TEST_CASE("an offset that is not of whole hours keeps its minutes and its sign") {
  // IANA time zone database: Asia/Kolkata +05:30, America/St_Johns -03:30 in winter, all year and since 1945 / 1935.
  CHECK(local_text(zone_named("Asia/Kolkata"), utc(2027y / 1 / 15, 12h)) == "2027-01-15T17:30:00+05:30");
  CHECK(local_text(zone_named("America/St_Johns"), utc(2027y / 1 / 15, 12h)) == "2027-01-15T08:30:00-03:30");
}

TEST_CASE("a wall time that the spring change leaves out is the first instant after the gap") {
  // `zdump -v`: Berlin 01:00 UTC, Chicago 08:00 UTC.
  const Zone berlin = zone_named("Europe/Berlin");
  CHECK(instant_of(berlin, spring_europe, 1h + 59min) == utc(spring_europe, 0h + 59min));
  CHECK(instant_of(berlin, spring_europe, 2h) == utc(spring_europe, 1h));
  CHECK(instant_of(berlin, spring_europe, 2h + 30min) == utc(spring_europe, 1h));
  CHECK(instant_of(berlin, spring_europe, 3h) == utc(spring_europe, 1h));
  CHECK(instant_of(berlin, spring_europe, 3h + 1min) == utc(spring_europe, 1h + 1min));
  const Zone chicago = zone_named("America/Chicago");
  CHECK(instant_of(chicago, spring_america, 2h + 30min) == utc(spring_america, 8h));
}

TEST_CASE("a wall time that the autumn change gives twice is the first of the two") {
  // `zdump -v`: 02:00 to 03:00 in Berlin, 01:00 to 02:00 in Chicago come twice.
  const Zone berlin = zone_named("Europe/Berlin");
  CHECK(instant_of(berlin, autumn_europe, 2h) == utc(autumn_europe, 0h));
  CHECK(instant_of(berlin, autumn_europe, 2h + 30min) == utc(autumn_europe, 30min));
  CHECK(instant_of(berlin, autumn_europe, 3h) == utc(autumn_europe, 2h));
  const Zone chicago = zone_named("America/Chicago");
  CHECK(instant_of(chicago, autumn_america, 1h + 30min) == utc(autumn_america, 6h + 30min));
  CHECK(instant_of(chicago, autumn_america, 2h) == utc(autumn_america, 8h));
}

TEST_CASE("the day of a change has 23 or 25 hours") {
  const Zone berlin = zone_named("Europe/Berlin");
  CHECK(instant_of(berlin, spring_europe, 24h) - instant_of(berlin, spring_europe, 0min) == 23h);
  CHECK(instant_of(berlin, autumn_europe, 24h) - instant_of(berlin, autumn_europe, 0min) == 25h);
}

TEST_CASE("the date is the one that the zone's calendar shows") {
  const Instant evening = utc(2027y / 1 / 29, 23h + 30min);
  CHECK(date_of(zone_named("Europe/Berlin"), evening) == 2027y / 1 / 30);
  CHECK(date_of(zone_named("America/Chicago"), evening) == 2027y / 1 / 29);
}

TEST_CASE("days of the week count from Monday") {
  // ISO 8601 week dates: 2027-01-01 is 2026-W53-5, a Friday, so 25 January is a Monday and 31 January a Sunday.
  const Zone berlin = zone_named("Europe/Berlin");
  CHECK(local_time(berlin, utc(2027y / 1 / 25, 7h + 30min)).weekday == 0);
  CHECK(local_time(berlin, utc(2027y / 1 / 31, 8h + 5min)).weekday == 6);
}

TEST_CASE("a date is read and written as ISO 8601 has it") {
  CHECK(parse_date("2027-01-29") == 2027y / 1 / 29);
  CHECK(parse_date("2028-02-29") == 2028y / 2 / 29);
  CHECK(text(Date{2027y / 1 / 9}) == "2027-01-09");
  for (const std::string_view wrong : {"", "2027", "2027-1-29", "29.01.2027", "2027/01/29", "20270129", "2027-01-29 ",
                                       " 2027-01-29", "-027-01-29", "+027-01-29", "2027-01-2x", "2027-01-29T08:00"}) {
    CAPTURE(wrong);
    REQUIRE(!parse_date(wrong).has_value());
    CHECK(parse_date(wrong).error().message.starts_with("not a date"));
  }
}

TEST_CASE("a date that the calendar lacks is answered with the month's last day") {
  // Gregorian calendar: 2027 is no leap year.
  REQUIRE(!parse_date("2027-02-29").has_value());
  CHECK(parse_date("2027-02-29").error().message == "no such date");
  CHECK(parse_date("2027-02-29").error().hint == "2027-02-28");
  CHECK(parse_date("2027-13-01").error().message == "no such date");
  CHECK(parse_date("2027-00-01").error().message == "no such date");
  CHECK(parse_date("2027-01-00").error().message == "no such date");
  CHECK(parse_date("2207-01-29").error().message.find("outside 1970 to 2037") != std::string::npos);
}

TEST_CASE("a moment is read as RFC 3339 has it") {
  // RFC 3339, section 5.8, examples; the second is there said to be 1996-12-20T00:39:57Z.
  CHECK(parse_instant("1985-04-12T23:20:50.52Z", Zone{}) == utc(1985y / 4 / 12, 23h + 20min + 50s));
  CHECK(parse_instant("1996-12-19T16:39:57-08:00", Zone{}) == utc(1996y / 12 / 20, 0h + 39min + 57s));
  CHECK(parse_instant("2027-01-29t08:30:00z", Zone{}) == utc(2027y / 1 / 29, 8h + 30min));
  CHECK(parse_instant("2027-01-29 08:30+01:00", Zone{}) == utc(2027y / 1 / 29, 7h + 30min));
  for (const std::string_view wrong :
       {"", "now", "08:30", "2027-01-29T", "2027-01-29T24:00:00Z", "2027-01-29T08:60:00Z", "2027-01-29T08:30:60Z",
        "2027-01-29T08:30:00.Z", "2027-01-29T08:30:00+1", "2027-01-29T08:30:00+0100", "2027-01-29T08:30:00+24:00",
        "2027-01-29T08:30:00ZZ", "2027-01-29T08:30:00Z ", "2027-01-29T-8:30:00Z", "2027-01-29x08:30:00Z"}) {
    CAPTURE(wrong);
    REQUIRE(!parse_instant(wrong, Zone{}).has_value());
    CHECK(parse_instant(wrong, Zone{}).error().message.starts_with("not a moment"));
  }
  CHECK(parse_instant("2027-02-30T08:30:00Z", Zone{}).error().message == "no such date");
}

TEST_CASE("a moment without its offset is refused with the one that the shop has then") {
  const Zone berlin = zone_named("Europe/Berlin");
  REQUIRE(!parse_instant("2027-01-29T08:30", berlin).has_value());
  CHECK(parse_instant("2027-01-29T08:30", berlin).error().message == "a time without its offset from UTC");
  CHECK(parse_instant("2027-01-29T08:30", berlin).error().hint == "2027-01-29T08:30:00+01:00");
  CHECK(parse_instant("2027-07-29T08:30:15", berlin).error().hint == "2027-07-29T08:30:15+02:00");
  CHECK(parse_instant("2027-01-29", berlin).error().message == "a date where a moment belongs");
  CHECK(parse_instant("2027-01-29", berlin).error().hint == "2027-01-29T08:00:00+01:00");
}

TEST_CASE("a moment is read as people name it, by the shop's clock") {
  // Monday, 3 May 2027 (Gregorian calendar), 14:00 in Berlin, which is two hours before UTC then.
  const Zone berlin = zone_named("Europe/Berlin");
  const Instant now = utc(2027y / 5 / 3, 12h);
  const NamedFrom back{berlin, now, NamedFrom::Days::back}, ahead{berlin, now, NamedFrom::Days::ahead};
  struct Row {
    std::string_view said;
    Instant looking_back, looking_ahead;
  };
  const Row rows[] = {
      {"13:30", utc(2027y / 5 / 3, 11h + 30min), utc(2027y / 5 / 3, 11h + 30min)},
      {"8:05:30", utc(2027y / 5 / 3, 6h + 5min + 30s), utc(2027y / 5 / 3, 6h + 5min + 30s)},
      {"2027-01-29 13:30", utc(2027y / 1 / 29, 12h + 30min), utc(2027y / 1 / 29, 12h + 30min)},
      {"2027-01-29T8:30", utc(2027y / 1 / 29, 7h + 30min), utc(2027y / 1 / 29, 7h + 30min)},
      {"friday 13:30", utc(2027y / 4 / 30, 11h + 30min), utc(2027y / 5 / 7, 11h + 30min)},
      {"Fri 13:30", utc(2027y / 4 / 30, 11h + 30min), utc(2027y / 5 / 7, 11h + 30min)},
      {"tuesday 0:00", utc(2027y / 4 / 26, 22h), utc(2027y / 5 / 3, 22h)},
      {"sun 9:00", utc(2027y / 5 / 2, 7h), utc(2027y / 5 / 9, 7h)},
      {"MONDAY 9:00", utc(2027y / 5 / 3, 7h), utc(2027y / 5 / 3, 7h)},
      {"monday", now, now},
      {"friday", utc(2027y / 4 / 30, 12h), utc(2027y / 5 / 6, 22h)},
      {"2027-01-29", utc(2027y / 1 / 29, 13h), utc(2027y / 1 / 28, 23h)},
      {"today 7:30", utc(2027y / 5 / 3, 5h + 30min), utc(2027y / 5 / 3, 5h + 30min)},
      {"yesterday 6:30", utc(2027y / 5 / 2, 4h + 30min), utc(2027y / 5 / 2, 4h + 30min)},
      {"Tomorrow 6:30", utc(2027y / 5 / 4, 4h + 30min), utc(2027y / 5 / 4, 4h + 30min)},
      {"yesterday", utc(2027y / 5 / 2, 12h), utc(2027y / 5 / 1, 22h)},
      {"today", now, now},
      {"friday  13:30", utc(2027y / 4 / 30, 11h + 30min), utc(2027y / 5 / 7, 11h + 30min)},
      {" 13:30", utc(2027y / 5 / 3, 11h + 30min), utc(2027y / 5 / 3, 11h + 30min)},
      {"2026-11-20  8:00 ", utc(2026y / 11 / 20, 7h), utc(2026y / 11 / 20, 7h)},
      {"2026-11-20 8:00+01:00", utc(2026y / 11 / 20, 7h), utc(2026y / 11 / 20, 7h)},
      {"2026-11-20T8:00-06:00", utc(2026y / 11 / 20, 14h), utc(2026y / 11 / 20, 14h)},
      {"2027-01-29T08:30:00-06:00", utc(2027y / 1 / 29, 14h + 30min), utc(2027y / 1 / 29, 14h + 30min)},
  };
  for (const Row& row : rows) {
    CAPTURE(row.said);
    CHECK(read_moment(row.said, back) == row.looking_back);
    CHECK(read_moment(row.said, ahead) == row.looking_ahead);
  }
  for (const std::string_view wrong :
       {"", " ", "24:00", "13.30", "13", "friday13:30", "today13:30", "2027-01-29 13:30 x", "2027-01-29 24:00",
        "13:30+02:00", "2027-01-29-13:30", "friday 2027-01-29"}) {
    CAPTURE(wrong);
    REQUIRE(!read_moment(wrong, back).has_value());
    CHECK(read_moment(wrong, back).error().message.find("is no moment") != std::string::npos);
  }
  CHECK(read_moment("frday 13:30", back).error().hint == "\"friday 13:30\"");
  CHECK(read_moment("yestrday 13:30", back).error().hint == "\"yesterday 13:30\"");
  CHECK(read_moment("24:00", back).error().hint.find("a day alone (friday, 2027-05-04)") != std::string::npos);
  CHECK(read_moment("2027-02-29 13:30", back).error().hint == "2027-02-28");
}

TEST_CASE("a time that a clock change leaves out or gives twice is answered with both that may be meant") {
  // The changes are those of `zdump -v -c 2027,2028` above: 02:00 to 03:00 on 28 March, 03:00 to 02:00 on 31 October.
  const Zone berlin = zone_named("Europe/Berlin");
  const NamedFrom from{berlin, utc(2027y / 11 / 1, 12h), NamedFrom::Days::back};
  const auto fault = [&](std::string_view said) {
    const auto moment = read_moment(said, from);
    REQUIRE(!moment.has_value());
    for (const std::string_view either : {moment.error().hint.substr(0, 25), moment.error().hint.substr(29)}) {
      CHECK(read_moment(either, from).has_value());
    }
    return moment.error().message + ": " + moment.error().hint;
  };
  CHECK(fault("2027-03-28 02:30") ==
        "the clock change leaves out 2027-03-28 02:30: 2027-03-28T01:30:00+01:00 or 2027-03-28T03:30:00+02:00");
  CHECK(fault("sunday 2:30") ==
        "the clock change gives twice 2027-10-31 02:30: 2027-10-31T02:30:00+02:00 or 2027-10-31T02:30:00+01:00");
  CHECK(read_moment("2027-03-28 03:00", from) == utc(spring_europe, 1h));
  CHECK(read_moment("2027-10-31 03:00", from) == utc(autumn_europe, 2h));
}

TEST_CASE("a zone that does not exist is answered with the nearest names") {
  const auto nearest_of = [](std::string_view name) {
    const auto zone = find_zone(name);
    REQUIRE(!zone.has_value());
    return zone.error().nearest.empty() ? std::string{} : zone.error().nearest.front();
  };
  CHECK(nearest_of("Europe/Berln") == "Europe/Berlin");
  CHECK(nearest_of("europe/berlin") == "Europe/Berlin");
  CHECK(nearest_of("Berlin") == "Europe/Berlin");
  CHECK(nearest_of("America/Chigaco") == "America/Chicago");
  CHECK(nearest_of("somewhere in the hills") == "");
  CHECK(!find_zone("").has_value());
}

TEST_CASE("the machine's own zone is not a name, because it means another zone elsewhere") {
  CHECK(!find_zone("localtime").has_value());
  CHECK(!find_zone("../../etc/localtime").has_value());
}

TEST_CASE("a zone is read by several threads at once") {
  const Zone zone = zone_named("Pacific/Auckland");          // not used before, so that all meet at its first reading
  const std::string expected = "2027-01-29T08:30:00+13:00";  // IANA: summer time there, 13 h ahead of UTC
  std::vector<std::string> shown(4);
  std::vector<std::thread> threads;
  for (std::string& text : shown) {
    threads.emplace_back([&text, zone] { text = local_text(zone, utc(2027y / 1 / 28, 19h + 30min)); });
  }
  for (std::thread& thread : threads) thread.join();
  for (const std::string& text : shown) CHECK(text == expected);
}

TEST_CASE("the distance between two words is the number of letters to change") {
  // Textbook pairs (Wagner and Fischer's method, J. ACM 21 (1974) 168): both 3.
  CHECK(edit_distance("kitten", "sitting") == 3);
  CHECK(edit_distance("saturday", "sunday") == 3);
  CHECK(edit_distance("", "seat") == 4);
  CHECK(edit_distance("seat", "") == 4);
  CHECK(edit_distance("Seat", "sEAT") == 0);
}

TEST_CASE("a mistyped word brings the likeliest names first, and none when none is near") {
  const std::vector<std::string> known{"thread", "hand", "embedded", "threads"};
  CHECK(nearest_names("thraed", known, 3) == std::vector<std::string>{"thread"});
  CHECK(nearest_names("threds", known, 3) == std::vector<std::string>{"threads", "thread"});
  CHECK(nearest_names("threds", known, 1) == std::vector<std::string>{"threads"});
  CHECK(nearest_names("colour", known, 3).empty());
  CHECK(nearest_names("x", std::vector<std::string>{"a", "b"}, 3).empty());
}
