// Calendar files: RFC 5545, and as libical reads them.

#include "write/icalendar.h"

#include <doctest/doctest.h>

#include <sstream>

#include "calendar_reader.h"

using namespace blankwright;
using namespace std::chrono_literals;

namespace {

const Instant start = std::chrono::sys_days{std::chrono::year{2027} / 3 / 28} + 6h + 30min;

CalendarEvent event_with(std::string summary, std::string description) {
  CalendarEvent event;
  event.uid = "TA-0147.1.1@two-brooks";
  event.from = start;
  event.to = start + 90min;
  event.summary = std::move(summary);
  event.description = std::move(description);
  event.place = "oven";
  event.category = "keeper";
  return event;
}

std::string file_with(const CalendarEvent& event, bool tentative = false) {
  return icalendar({"TA-0147", "Blankwright 0.1.0", start - 24h, tentative, {event}});
}

}  // namespace

TEST_CASE("an event comes back from the reference library as it was written") {
  const std::string file = file_with(event_with("Saw, then tag", "one; two\nthree \\ four"));
  // libical reads a bare comma too; RFC 5545, section 3.3.11, forbids it.
  CHECK(file.find("SUMMARY:Saw\\, then tag\r\n") != std::string::npos);
  CHECK(file.find("DESCRIPTION:one\\; two\\nthree \\\\ four\r\n") != std::string::npos);
  const auto events = events_read(file);
  REQUIRE(events.size() == 1);
  CHECK(events[0].uid == "TA-0147.1.1@two-brooks");
  CHECK(events[0].summary == "Saw, then tag");
  CHECK(events[0].description == "one; two\nthree \\ four");
  CHECK(events[0].place == "oven");
  CHECK(events[0].category == "keeper");
  CHECK(events[0].from == start);
  CHECK(events[0].to == start + 90min);
  CHECK(events[0].busy);
  CHECK(events[0].status == "confirmed");
  CHECK(events[0].stamp == start - 24h);
  CHECK(events[0].sequence == 0);
  CHECK(events[0].alarm.empty());
}

TEST_CASE("what tells something new, what is cancelled and what somebody has to be told of is told so") {
  CalendarEvent event = event_with("Vacuum, end; hold", "");
  event.sequence = 17;
  event.alarm = true;
  auto events = events_read(file_with(event));
  REQUIRE(events.size() == 1);
  CHECK(events[0].sequence == 17);
  CHECK(events[0].alarm == "Vacuum, end; hold");
  event.alarm = false;
  event.cancelled = true;
  events = events_read(file_with(event));
  REQUIRE(events.size() == 1);
  CHECK(events[0].status == "cancelled");
  CHECK(events[0].uid == event.uid);
}

TEST_CASE("what keeps nobody busy, what is not settled and what takes a whole day is told so") {
  CalendarEvent event = event_with("Due", "");
  event.busy = false;
  event.all_day = std::chrono::year{2027} / 6 / 18;
  const auto events = events_read(file_with(event, true));
  REQUIRE(events.size() == 1);
  CHECK_FALSE(events[0].busy);
  CHECK(events[0].status == "tentative");
  CHECK(events[0].all_day);
  CHECK(events[0].from == std::chrono::sys_days{std::chrono::year{2027} / 6 / 18});
  CHECK(events[0].description.empty());
}

TEST_CASE("lines end with CR LF, have 75 bytes at most and are never cut inside a character") {
  std::string words;
  for (int k = 0; k < 60; ++k) words += k % 7 == 0 ? "Ωχ– " : "äßé";  // two bytes each, and three
  const std::string file = file_with(event_with(words, std::string(300, 'x')));
  std::istringstream lines{file};
  std::size_t count = 0;
  for (std::string line; std::getline(lines, line); ++count) {
    CAPTURE(line);
    REQUIRE(line.ends_with('\r'));
    line.pop_back();
    CHECK(line.size() <= 75);
    CHECK(line.find('\r') == std::string::npos);
    const std::size_t first = line.starts_with(' ') ? 1 : 0;
    REQUIRE(line.size() > first);
    CHECK((static_cast<unsigned char>(line[first]) & 0xC0U) != 0x80U);
  }
  CHECK(count > 20);
  const auto events = events_read(file);
  REQUIRE(events.size() == 1);
  CHECK(events[0].summary == words);
  CHECK(events[0].description == std::string(300, 'x'));
}

TEST_CASE("a text of several lines is written as in RFC 5545, section 3.3.11") {
  const std::string file =
      file_with(event_with("x", "Project XYZ Final Review\nConference Room - 3B\nCome Prepared."));
  std::string unfolded;
  for (std::size_t i = 0; i < file.size(); ++i) {
    if (file.compare(i, 3, "\r\n ") == 0) {
      i += 2;
    } else {
      unfolded += file[i];
    }
  }
  CHECK(unfolded.find("DESCRIPTION:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.\r\n") !=
        std::string::npos);
}

TEST_CASE("what takes no time has a beginning and no end, which would have to be later") {
  CalendarEvent event = event_with("Gate", "");
  event.to = event.from;
  const std::string file = file_with(event);
  CHECK(file.find("DTSTART:20270328T063000Z\r\n") != std::string::npos);
  CHECK(file.find("DTEND") == std::string::npos);
  CHECK(events_read(file).size() == 1);
}
