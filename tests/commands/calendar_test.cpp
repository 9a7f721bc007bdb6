// Calendar file and table of blanks of the samples, beside plan.json and as the reference library reads them.

#include <doctest/doctest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

#include "calendar_reader.h"
#include "program.h"

using namespace blankwright;
using Json = nlohmann::json;

namespace {

using Stretch = std::pair<Instant, Instant>;

Stretch stretch_of(const Json& at) {
  return {parse_instant(at["start"].get<std::string>(), Zone{}).value(),
          parse_instant(at["end"].get<std::string>(), Zone{}).value()};
}

std::vector<Stretch> hands_on_in(const Json& plan) {
  std::vector<Stretch> all;
  for (const Json& op : plan["schedule"]) {
    for (const Json& at : op["hands_on"]) all.push_back(stretch_of(at));
  }
  std::ranges::sort(all);
  return all;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) {
    REQUIRE(line.ends_with('\r'));
    line.pop_back();
    lines.push_back(line);
  }
  return lines;
}

struct SampleCalendar {
  SampleJobs jobs;
  std::string file(const std::string& name) const { return bytes_of(jobs.out() + "/" + name); }
  ProgramRun run(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(), {"compile", "--out", jobs.out()});
    ProgramRun done = run_program(std::move(arguments));
    REQUIRE_MESSAGE(done.exit == Exit::done, done.errors);
    return done;
  }
};

}  // namespace

TEST_CASE("an order's calendar has all its hands-on time, what goes on by itself, and the due date") {
  for (const Sample& sample : samples()) {
    CAPTURE(sample.id);
    const SampleCalendar compiled;
    compiled.run({compiled.jobs / sample.job});
    const Json plan = Json::parse(compiled.file(sample.id + "/plan.json"));
    const auto events = events_read(compiled.file(sample.id + "/schedule.ics"));
    std::vector<Stretch> busy;
    std::set<std::string> uids;
    int days = 0;
    for (const EventRead& event : events) {
      CHECK(event.summary.starts_with(sample.id));
      CHECK(event.status == "confirmed");
      uids.insert(event.uid);
      if (event.busy) busy.emplace_back(event.from, event.to);
      if (!event.all_day) continue;
      ++days;
      CHECK(text(date_of(Zone{}, event.from)) == plan["order"]["due"].get<std::string>());
    }
    CHECK(days == 1);
    CHECK(uids.size() == events.size());
    std::ranges::sort(busy);
    CHECK(busy == hands_on_in(plan));
    for (const Json& op : plan["schedule"]) {
      CAPTURE(op["op"].get<std::string>());
      REQUIRE(!op["runs"].empty());
      CHECK(op["runs"].front()["start"] == op["start"]);
      CHECK(op["runs"].back()["end"] == op["end"]);
    }
    // The soak: the vessel's time by itself, from start to end.
    const auto& schedule = plan["schedule"];
    const auto soak = std::ranges::find_if(
        schedule, [](const Json& op) { return op["op"].get<std::string>().find("soak") != std::string::npos; });
    REQUIRE(soak != schedule.end());
    const auto soaking = std::ranges::find_if(events, [](const EventRead& event) {
      return !event.busy && event.summary.find("soak") != std::string::npos;
    });
    REQUIRE(soaking != events.end());
    CHECK(Stretch{soaking->from, soaking->to} == stretch_of(*soak));
    CHECK(soaking->place.starts_with((*soak)["resource"].get<std::string>() + ", bath "));
  }
}

TEST_CASE("the table of blanks has a row a blank, with its ID, its place in the wood and its bath") {
  const SampleCalendar compiled;
  compiled.run({compiled.jobs / "metric/burnisher.toml"});
  const Json plan = Json::parse(compiled.file("TA-0147/plan.json"));
  const auto lines = lines_of(compiled.file("TA-0147/blanks.csv"));
  REQUIRE(lines.size() == plan["blanks"].size() + 1);
  CHECK(lines.front() ==
        "blank,order,number,role,item,client,species,condition,board,sawn_from,sawn_section_mm,sawn_length_mm,bath,"
        "load");
  for (std::size_t n = 0; n < plan["blanks"].size(); ++n) {
    const Json& blank = plan["blanks"].at(n);
    const std::string& line = lines.at(n + 1);
    CAPTURE(line);
    CHECK(line.starts_with(blank["id"].get<std::string>() + ",TA-0147," + std::to_string(n + 1) + "," +
                           (blank["witness"].get<bool>() ? "witness" : "piece") + ","));
    const auto board = blank["board"].get<std::string>();
    CHECK(line.find("," + board + "," + board + " " + blank["position"].get<std::string>() + ",48.00,128.00,1,1") !=
          std::string::npos);
  }
  const SampleCalendar inch;
  inch.run({inch.jobs / "inch/knob.toml"});
  const auto inches = lines_of(inch.file("CC-2026.2/blanks.csv"));
  CHECK(inches.front().find(",sawn_section_in,sawn_length_in,") != std::string::npos);
  CHECK(inches.at(1).find(",1.8750,2.3125,1,1") != std::string::npos);  // 1-7/8 and 2-5/16, as on the tags
}

TEST_CASE("a draft's calendar is tentative, and its table has no IDs") {
  const SampleCalendar compiled;
  compiled.run({"--draft", compiled.jobs / "metric/burnisher.toml"});
  const auto events = events_read(compiled.file("TA-0147/schedule.ics"));
  CHECK(events.size() > 20);
  for (const EventRead& event : events) CHECK(event.status == "tentative");
  const auto lines = lines_of(compiled.file("TA-0147/blanks.csv"));
  REQUIRE(lines.size() == 11);
  CHECK(lines.at(1).starts_with(",TA-0147,1,piece,"));
  CHECK(lines.at(10).starts_with(",TA-0147,10,witness,"));
}

TEST_CASE("calendar and table can be asked for alone") {
  const SampleCalendar compiled;
  compiled.run({"--only", "calendar,blanks", compiled.jobs / "metric/burnisher.toml"});
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator{compiled.jobs.out() + "/TA-0147"}) {
    names.insert(entry.path().filename().string());
  }
  CHECK(names == std::set<std::string>{"blanks.csv", "schedule.ics"});
}
