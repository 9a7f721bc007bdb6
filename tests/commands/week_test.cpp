// The shop's days of several orders, on paper and as a calendar.

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "calendar_reader.h"
#include "program.h"
#include "register/register.h"

using namespace blankwright;
using Json = nlohmann::json;

namespace {

struct Week {
  SampleJobs jobs;
  explicit Week(std::vector<std::string> names, std::vector<std::string> flags = {}) {
    std::vector<std::string> arguments{"compile", "--week", "--at", "2027-05-03T08:00:00Z", "--out", jobs.out()};
    arguments.insert(arguments.end(), flags.begin(), flags.end());
    for (const std::string& name : names) arguments.push_back(jobs / name);
    const ProgramRun run = run_program(arguments);
    REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
    CHECK(run.out.find("week.pdf, shop.ics") != std::string::npos);
  }
  std::string file(const std::string& name) const { return jobs.out() + "/" + name; }
};

const std::vector<std::string> both{"inch/file-handle.toml", "inch/knob.toml"};

}  // namespace

TEST_CASE("the shop's calendar has the hands-on time of all orders, and no person twice at once") {
  const Week week{both};
  std::multiset<std::pair<Instant, Instant>> planned;
  for (const char* id : {"CC-2026.1", "CC-2026.2"}) {
    const Json plan = Json::parse(bytes_of(week.file(std::string{id} + "/plan.json")));
    for (const Json& op : plan["schedule"]) {
      for (const Json& at : op["hands_on"]) {
        planned.emplace(parse_instant(at["start"].get<std::string>(), Zone{}).value(),
                        parse_instant(at["end"].get<std::string>(), Zone{}).value());
      }
    }
  }
  std::multiset<std::pair<Instant, Instant>> shown;
  std::map<std::string, std::vector<EventRead>> by_person;
  std::set<std::string> due, uids;
  const auto events = events_read(bytes_of(week.file("shop.ics")));
  for (const EventRead& event : events) {
    uids.insert(event.uid);
    if (event.all_day) due.insert(event.summary);
    if (!event.busy) continue;
    shown.emplace(event.from, event.to);
    by_person[event.category].push_back(event);
  }
  CHECK(shown == planned);
  CHECK(uids.size() == events.size());
  CHECK(due == std::set<std::string>{"CC-2026.1: Due", "CC-2026.2: Due"});
  REQUIRE(by_person.size() == 2);
  for (auto& [person, all] : by_person) {
    CAPTURE(person);
    std::ranges::sort(all, {}, &EventRead::from);
    for (std::size_t i = 1; i < all.size(); ++i) CHECK(all.at(i - 1).to <= all.at(i).from);
  }
}

TEST_CASE("orders that share a bath are one task there, under both ids") {
  const Week week{{"metric/burnisher.toml"}};  // the first order alone, to copy
  std::string second = bytes_of(week.jobs / "metric/burnisher.toml");
  second.replace(second.find("TA-0147"), 7, "TA-0148");
  put_bytes(week.jobs / "metric/second.toml", second);
  REQUIRE(run_program({"compile", "--week", "--at", "2027-05-03T08:00:00Z", "--out", week.jobs.out(),
                       week.jobs / "metric/burnisher.toml", week.jobs / "metric/second.toml"})
              .exit == Exit::done);
  const auto events = events_read(bytes_of(week.file("shop.ics")));
  const auto shared = [&](const std::string& operation) {
    return std::ranges::count_if(events, [&](const EventRead& event) {
      return event.summary.starts_with("TA-0147, TA-0148: " + operation) ||
             event.summary.starts_with("TA-0148, TA-0147: " + operation);
    });
  };
  std::set<std::string> uids;
  for (const EventRead& event : events) uids.insert(event.uid);
  CHECK(uids.size() == events.size());
  CHECK(shared("Bath: vacuum") > 0);
  CHECK(shared("Turn") == 0);
  // The second order's blanks are in two baths, in a vessel each, and so are the events.
  std::set<std::string> vessels;
  for (const EventRead& event : events) {
    if (event.summary.find("TA-0148") != std::string::npos && event.summary.find("vacuum") != std::string::npos) {
      vessels.insert(event.place);
    }
  }
  CHECK(vessels == std::set<std::string>{"tall pot", "trough"});
}

TEST_CASE("the week's sheet has every day's work on both papers, and independent tools open it") {
  for (const auto& names : {both, std::vector<std::string>{"metric/burnisher.toml"}}) {
    const Week week{names};
    const std::string pdf = shell_quoted(week.file("week.pdf"));
    const auto checked = run_tool("qpdf --check " + pdf);
    CHECK(checked.status == 0);
    CHECK(checked.err == "");
    const auto drawn = run_tool("mutool draw -N -q -r 20 -F pnm -o /dev/null " + pdf);
    CHECK(drawn.status == 0);
    CHECK(drawn.err == "");
    const std::string text = run_tool("pdftotext -layout " + pdf + " -").out;
    std::size_t at = 0;
    std::size_t rows = 0;
    for (; (at = text.find("–", at)) != std::string::npos; ++at) ++rows;
    const auto events = events_read(bytes_of(week.file("shop.ics")));
    CHECK(rows >= events.size() - names.size());  // a dash in each row's time
    for (const EventRead& event : events) {
      if (event.all_day) continue;
      const Zone zone = find_zone(names.size() == 1 ? "Europe/Vienna" : "America/Detroit").value();
      const LocalTime from = local_time(zone, event.from);
      char clock[32];
      std::snprintf(clock, sizeof clock, "%02u:%02u – ", from.hour, from.minute);
      CHECK_MESSAGE(text.find(clock) != std::string::npos, event.summary);
    }
    CHECK(text.find("Week from Mon 3 May 2027") != std::string::npos);
    CHECK(text.find("Week from Mon 10 May 2027") != std::string::npos);
  }
}

TEST_CASE("a draft's week issues nothing and says that it is a draft") {
  const Week week{both, {"--draft"}};
  CHECK_FALSE(std::filesystem::exists(week.jobs / "inch/shop.register"));
  for (const EventRead& event : events_read(bytes_of(week.file("shop.ics")))) CHECK(event.status == "tentative");
}

TEST_CASE("an order that is called as the week's sheet is keeps its files, and the way of the sheet is told") {
  const SampleJobs jobs;
  std::string job = bytes_of(jobs / "metric/burnisher.toml");
  job.replace(job.find("TA-0147"), 7, "week.pdf");
  put_bytes(jobs / "metric/job.toml", job);
  const auto run = run_program({"compile", "--week", "--out", jobs.out(), jobs / "metric/job.toml"});
  CHECK(run.exit == Exit::world);
  CHECK(run.errors.find("week.pdf: is a folder") != std::string::npos);
  CHECK(run.out.find("1 of 1 orders compiled") != std::string::npos);
  CHECK(std::filesystem::exists(jobs.out() + "/week.pdf/traveller.pdf"));
}
