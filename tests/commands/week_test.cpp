// The shop's days of several orders, on paper and as a calendar.

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
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

TEST_CASE("orders that share a bath are one task there, whichever was named first, and hold where each holds") {
  std::vector<std::string> before;
  for (const bool turned : {false, true}) {
    const SampleJobs jobs;
    // So few that a bath of their own would not be worth it.
    std::string second = bytes_of(jobs / "metric/burnisher.toml");
    second.replace(second.find("quantity = 6"), 12, "quantity = 2");
    put_bytes(jobs / "metric/burnisher.toml", second);
    second.replace(second.find("TA-0147"), 7, "TA-0148");
    put_bytes(jobs / "metric/second.toml", second);
    std::vector<std::string> names{jobs / "metric/burnisher.toml", jobs / "metric/second.toml"};
    if (turned) std::swap(names.front(), names.back());
    // So that the blanks have the same IDs and places, the due dates decide and not the command line.
    std::string urgent = bytes_of(jobs / "metric/second.toml");
    urgent.replace(urgent.find("due = 2027-06-18"), 16, "due = 2027-06-10");
    put_bytes(jobs / "metric/second.toml", urgent);
    REQUIRE(run_program({"compile", "--week", "--at", "2027-05-03T08:00:00Z", "--out", jobs.out(), names.front(),
                         names.back()})
                .exit == Exit::done);
    const auto events = events_read(bytes_of(jobs.out() + "/shop.ics"));
    std::vector<std::string> told;
    std::set<std::string> uids, vessels;
    int shared = 0, held = 0;
    for (const EventRead& event : events) {
      uids.insert(event.uid);
      // Whose IDs are the lowest goes by the command line; what is done does not.
      told.push_back(event.uid.substr(event.uid.find('.')) + event.summary + event.place +
                     local_text(Zone{}, event.from) + event.description);
      const bool both = event.summary.starts_with("TA-0147") && event.summary.find("TA-0148") != std::string::npos;
      shared += both ? 1 : 0;
      if (event.summary.find("Bath: vacuum") == std::string::npos) continue;
      vessels.insert(event.place);
      if (event.summary.ends_with(", end") &&
          event.description.find("HOLD: bubbling down: bath card, box 4") != std::string::npos)
        ++held;
    }
    CHECK(uids.size() == events.size());
    CHECK(shared > 10);
    CHECK(vessels == std::set<std::string>{"tall pot, bath 1"});
    CHECK(held == 1);  // once for both
    if (turned) CHECK(told == before);
    before = told;
  }
}

TEST_CASE("a card that lies with several orders says so, and one of a single order does not") {
  const SampleJobs jobs;
  std::string second = bytes_of(jobs / "metric/burnisher.toml");
  second.replace(second.find("TA-0147"), 7, "TA-0148");
  put_bytes(jobs / "metric/second.toml", second);
  const auto cards = [&](const std::string& id) {
    const std::string file = shell_quoted(jobs.out() + "/" + id + "/traveller.pdf");
    std::string text = run_tool("pdftotext -layout " + file + " - | tr -s ' \\n' ' '").out;
    // Both orders' blanks need 24 h by the shop's table, and then the two weighings.
    CHECK(text.find("103 °C 24 h ") != std::string::npos);
    return text.find("this card lies with each of these orders") != std::string::npos;
  };
  REQUIRE(run_program({"compile", "--out", jobs.out(), jobs / "metric/burnisher.toml"}).exit == Exit::done);
  CHECK_FALSE(cards("TA-0147"));
  REQUIRE(run_program({"compile", "--out", jobs.out(), jobs / "metric/burnisher.toml", jobs / "metric/second.toml"})
              .exit == Exit::done);
  CHECK(cards("TA-0147"));
  CHECK(cards("TA-0148"));
}

TEST_CASE("the week's sheet has a row for every task on both papers, and independent tools open it") {
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
    const std::regex time{"(?:^|[\\n\\f]) *([0-9]{2}:[0-9]{2}) – "};
    std::multiset<std::string> shown, planned;
    for (std::sregex_iterator it{text.begin(), text.end(), time}, end; it != end; ++it) shown.insert((*it)[1]);
    const Zone zone = find_zone(names.size() == 1 ? "Europe/Vienna" : "America/Detroit").value();
    for (const EventRead& event : events_read(bytes_of(week.file("shop.ics")))) {
      if (!event.all_day) planned.insert(local_text(zone, event.from).substr(11, 5));
    }
    CHECK(shown == planned);
    for (const char* words :
         {"Week from Mon 3 May 2027", "bath 1, load 1", "Cure, begin", "Cure, end", "Cure, someone must be there",
          names.size() == 1 ? "Bath: vacuum, someone must be there" : "Bath: vacuum, runs unattended"}) {
      CAPTURE(words);
      CHECK(text.find(words) != std::string::npos);
    }
    CHECK(text.find("Week from Mon 10 May 2027") != std::string::npos);
  }
}

TEST_CASE("orders that are not in the week are named on its sheet") {
  const SampleJobs jobs;
  std::string wrong = bytes_of(jobs / "metric/burnisher.toml");
  wrong.replace(wrong.find("TA-0147"), 7, "TA-0149");
  wrong.replace(wrong.find("quantity = 6"), 12, "quantity = 0");
  put_bytes(jobs / "metric/wrong.toml", wrong);
  const auto run = run_program(
      {"compile", "--week", "--out", jobs.out(), jobs / "metric/burnisher.toml", jobs / "metric/wrong.toml"});
  CHECK(run.exit == Exit::mistakes);
  const std::string text = run_tool("pdftotext -layout " + shell_quoted(jobs.out() + "/week.pdf") + " -").out;
  CHECK(text.find("Not on this sheet (see what the program said): wrong.toml") != std::string::npos);
}

TEST_CASE("an order of which a file could not be written still takes its time in the week") {
  const SampleJobs jobs;
  std::filesystem::create_directories(jobs.out() + "/TA-0147/tags.pdf");
  const auto run = run_program({"compile", "--week", "--out", jobs.out(), jobs / "metric/burnisher.toml"});
  CHECK(run.exit == Exit::world);
  CHECK(events_read(bytes_of(jobs.out() + "/shop.ics")).size() > 20);
}

TEST_CASE("a draft's week issues nothing and says that it is a draft") {
  const Week week{both, {"--draft"}};
  CHECK_FALSE(std::filesystem::exists(week.jobs / "inch/shop.register"));
  const auto events = events_read(bytes_of(week.file("shop.ics")));
  CHECK(events.size() > 20);
  for (const EventRead& event : events) CHECK(event.status == "tentative");
  const std::string text = run_tool("pdftotext " + shell_quoted(week.file("week.pdf")) + " -").out;
  CHECK(text.find("DRAFT: no blank has an ID yet") != std::string::npos);
}

TEST_CASE("an order that is called as the week's sheet is keeps its files, and the way of the sheet is told") {
  const SampleJobs jobs;
  std::string job = bytes_of(jobs / "metric/burnisher.toml");
  job.replace(job.find("TA-0147"), 7, "week.pdf");
  put_bytes(jobs / "metric/job.toml", job);
  const auto run = run_program({"compile", "--week", "--out", jobs.out(), jobs / "metric/job.toml"});
  CHECK(run.exit == Exit::world);
  CHECK(run.errors.find("week.pdf: is a folder") != std::string::npos);
  CHECK(run.out.find("1 of 1 order compiled") != std::string::npos);
  CHECK(std::filesystem::exists(jobs.out() + "/week.pdf/traveller.pdf"));
}
