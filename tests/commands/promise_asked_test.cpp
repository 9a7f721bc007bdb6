// Which date can be promised, and what an order queues for that is late, as the program tells it.

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "workshop.h"

using namespace blankwright;
using Json = nlohmann::json;

namespace {

Json facts_of(const ProgramRun& ran) {
  REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
  return Json::parse(ran.out).at("facts");
}

ProgramRun promise(const std::string& job) { return run_program({"promise", "--as", "json", job}); }

}  // namespace

TEST_CASE("a promise tells its dates and what they rest on, and makes no register") {
  const SampleJobs jobs;
  const std::string job = jobs / "metric/burnisher.toml";
  const Json facts = facts_of(promise(job));
  CHECK(facts.at("order") == "TA-0147");
  CHECK(facts.at("confidence") == "90 %");
  const std::string even = facts.at("as likely as not"), sure = facts.at("to promise");
  CHECK(even >= "2027-05-04");
  CHECK(even <= sure);
  CHECK(facts.at("due").get<std::string>().starts_with("2027-06-18, kept with "));
  CHECK(facts.at("rests on") ==
        "17 good of 20 started, as the shop file says; times that spread by 20.0 %, assumed: 0 of 20 orders are on "
        "record");
  CHECK_FALSE(facts.contains("if others may be later"));
  CHECK_FALSE(std::filesystem::exists(jobs / "metric/shop.register"));

  // More confidence is never an earlier date, nor is wood that has to come first.
  change(jobs / "metric/shop.toml", "[drying]", "[promise]\nconfidence = \"99 %\"\nspread = \"20 %\"\n\n[drying]");
  const std::string surer = facts_of(promise(job)).at("to promise");
  CHECK(surer >= sure);
  change(job, "quantity = 6", "quantity = 14");  // its boards give twenty blanks
  change(jobs / "metric/shop.toml", "spread = \"20 %\"", "spread = \"20 %\"\nwood_delivery = \"60 d\"");
  const ProgramRun waits = promise(job);
  const Json then = facts_of(waits);
  CHECK(then.at("as likely as not") > surer);
  CHECK(then.at("governs") == "delivery of wood: 60 d");
  CHECK(then.at("rests on").get<std::string>().ends_with("wood 60 d after it is ordered"));
  const Json answer = Json::parse(waits.out);
  bool is_ordered = false;
  for (const Json& row : answer.at("rows"))
    is_ordered = is_ordered || (row.at("material") == "wood" && row.at("order by") == "at once");
  CHECK(is_ordered);
}

TEST_CASE("behind open orders a promise leaves them as they are, and names those that would be later") {
  Workshop shop;
  const std::string file = shop.jobs / "metric/second.toml";
  put_bytes(file, bytes_of(shop.jobs / "metric/burnisher.toml"));
  change(file, "TA-0147", "TA-0148");
  const std::string before = bytes_of(shop.jobs / "metric/shop.register");
  const Json facts = facts_of(promise(file));
  CHECK(bytes_of(shop.jobs / "metric/shop.register") == before);
  const std::string sure = facts.at("to promise");
  CHECK(facts.at("governs").get<std::string>().find("TA-0147") != std::string::npos);
  REQUIRE(facts.contains("if others may be later"));
  CHECK(facts.at("if others may be later") < sure);
  CHECK(facts.at("made later").get<std::string>().starts_with("TA-0147 by "));
}

TEST_CASE("a job that cannot be planned is promised nothing") {
  const SampleJobs jobs;
  const std::string job = jobs / "metric/burnisher.toml";
  change(job, "quantity = 6", "quantity = 0");
  const ProgramRun ran = promise(job);
  CHECK(ran.exit == Exit::mistakes);
  CHECK(ran.out.empty());
  CHECK(ran.errors.find("quantity") != std::string::npos);
  CHECK(run_program({"promise", jobs / "metric/shop.toml"}).exit == Exit::mistakes);
}

TEST_CASE("who is late is told what stands before it, on paper, in the terminal and in plan.json") {
  Workshop shop;
  const std::string first = shop.jobs / "metric/burnisher.toml", file = shop.jobs / "metric/second.toml";
  change(first, "due = 2027-06-18", "due = 2027-05-14");  // one that could wait would make room
  REQUIRE(shop.run({"compile", "--only", "plan", "--out", shop.jobs.out(), first}).exit == Exit::done);
  put_bytes(file, bytes_of(first));
  change(file, "TA-0147", "TA-0148");
  const ProgramRun ran = shop.run({"compile", "--week", "--only", "plan", "--out", shop.jobs.out(), file});
  REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
  const Json plan = Json::parse(bytes_of(shop.jobs.out() + "/TA-0148/plan.json"));
  const Json& queue = plan.at("delivery").at("queues_for");
  REQUIRE(queue.is_object());
  const std::string resource = queue.at("resource"), op = queue.at("op");
  CHECK(queue.at("behind").at("orders") == Json{"TA-0147"});
  // It waits from the end of what is before to the beginning of that operation, and what stands before ends by then.
  const Json& schedule = plan.at("schedule");
  const auto waits = std::ranges::find_if(schedule, [&](const Json& one) { return one.at("op") == op; });
  REQUIRE(waits != schedule.end());
  CHECK(waits->at("start") == queue.at("to"));
  CHECK(queue.at("from") < queue.at("to"));
  CHECK(queue.at("behind").at("end") > queue.at("from"));
  CHECK(queue.at("behind").at("end") <= queue.at("to"));

  CHECK(ran.errors.find("before \"" + op + "\" it queues for \"" + resource + "\" from ") != std::string::npos);
  CHECK(ran.errors.find(" of TA-0147: make room there, or tell the client") != std::string::npos);
  const std::string week =
      run_tool("pdftotext " + shell_quoted(shop.jobs.out() + "/week.pdf") + " - | tr '\\n' ' '").out;
  CHECK(week.find("waits for " + resource + ", behind TA-0147") != std::string::npos);
  const Json today = Json::parse(shop.run({"today", "--as", "json"}).out);
  const auto late =
      std::ranges::find_if(today.at("sections"), [](const Json& one) { return one.at("section") == "late"; });
  REQUIRE(late != today.at("sections").end());
  const Json& row = late->at("rows").at(0);
  CHECK(row.at("order") == "TA-0148");
  CHECK(row.at("what") == op);
  CHECK(row.at("note").get<std::string>().starts_with("waits for " + resource + ", behind TA-0147"));
}
