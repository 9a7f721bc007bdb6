// The plan follows the work: what is done is past, what runs stays where it is, and today's list tells what is on.

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

#include "shop_at_work.h"

using namespace blankwright;
using Json = nlohmann::json;

TEST_CASE("a recompile in mid-bath keeps the vacuum that runs where it is, and plans soak and cure behind it") {
  Work work;
  work.into_bath(work.blanks.size());
  const std::int64_t begun = work.now;
  work.hours(1);
  const auto plan = work.plan();
  const Json& vacuum = plan.at("Bath: vacuum");
  REQUIRE(vacuum["runs"].size() == 1);
  CHECK(vacuum["runs"][0]["begun"] == true);
  CHECK(vacuum["runs"][0]["done"] == false);
  CHECK(vacuum["runs"][0]["name"] == "B1");
  CHECK(vacuum["runs"][0]["resource"] == "trough");
  CHECK(vacuum["start"] == moment(begun));
  // By the order's own figures it runs about six hours (check value of the sample, which its first plan has as well).
  CHECK(vacuum["end"].get<std::string>() > moment(begun + 5 * 3600));
  CHECK(plan.at("Bath: soak through the night")["start"] >= vacuum["end"]);
  CHECK(blanks_of(plan.at("Cure"), false) == 10);
  CHECK(plan.at("Cure")["start"] >= plan.at("Bath: soak through the night")["end"]);
  CHECK(blanks_of(plan.at("Saw the blanks"), true) == 10);
}

TEST_CASE("with seven of ten in the bath turning is planned for all, and the other three get a bath of their own") {
  Work work;
  const auto fresh = work.plan();
  work.into_bath(7);
  const auto plan = work.plan();
  CHECK(blanks_of(plan.at("Turn"), false) == blanks_of(fresh.at("Turn"), false));
  CHECK(plan.at("Bath: vacuum")["runs"].size() == 2);
  CHECK(plan.at("Bath: vacuum")["runs"][0]["blanks"] == 7);
  CHECK(plan.at("Bath: vacuum")["runs"][1]["blanks"] == 3);
  CHECK(plan.at("Bath: vacuum")["runs"][1]["start"] >= plan.at("Bath: vacuum")["runs"][0]["end"]);
  CHECK(plan.at("Turn")["start"] >= plan.at("Cure")["end"]);
}

TEST_CASE("a wait that is broken is told, and fails nothing; sealed wood waits without harm") {
  const auto compiled_after = [](const char* kind) {
    Work work;
    work.weigh_dry();
    if (kind != nullptr) work.enter(0, kind, work.blanks.size());
    work.hours(20);  // the routing lets them wait for half an hour before the vacuum
    const ProgramRun compiled = work.run({"compile", "--out", work.jobs.out(), work.jobs / "metric/burnisher.toml"});
    CHECK(compiled.exit == Exit::done);
    return compiled.errors;
  };
  const std::string told = compiled_after(nullptr);
  CHECK(told.find("wait-broken") != std::string::npos);
  CHECK(told.find("TA-0147: 10 blanks wait since") != std::string::npos);
  CHECK(compiled_after("sealed").find("wait-broken") == std::string::npos);
}

TEST_CASE("a plan from before what was entered says so") {
  Work work;
  work.weigh_dry();
  const ProgramRun compiled = work.run(
      {"compile", "--draft", "--at", moment(noon), "--out", work.jobs.out(), work.jobs / "metric/burnisher.toml"});
  CHECK(compiled.exit == Exit::done);
  CHECK(compiled.errors.find("entries-later") != std::string::npos);
}

TEST_CASE("what was begun of some blanks takes its time for each of the others, and no second time for itself") {
  Work work;
  work.enter(0, "board", 0, {"board=A1"});
  work.enter(0, "sawn", 4, {"board=A1"});
  work.now = noon + 19 * 3600 - 1800;  // 08:30 on the next day, in the zone of the shop
  const Json saw = work.plan().at("Saw the blanks");
  REQUIRE(saw["runs"].size() == 2);
  CHECK(saw["runs"][0]["done"] == true);
  CHECK(saw["runs"][1]["blanks"] == 6);
  // 4 min a piece as the shop's routing says, without its 20 min.
  CHECK(saw["runs"][1]["start"] == moment(work.now));
  CHECK(saw["runs"][1]["end"] == moment(work.now + 6 * 4 * 60));
}

TEST_CASE("today's list asks what was planned and not entered, and tells what runs and what is next") {
  Work work;
  work.now = noon + 20 * 3600;  // after the sawing was to be over
  auto today = work.today();
  REQUIRE(today["not-entered"].size() == 1);
  CHECK(today["not-entered"][0]["what"] == "Saw the blanks");
  CHECK(today["not-entered"][0]["note"].get<std::string>().starts_with("10 of 10, due"));
  CHECK_FALSE(today["hands"].empty());
  work.into_bath(work.blanks.size());
  work.hours(1);
  today = work.today();
  REQUIRE(today["running"].size() == 1);
  CHECK(today["running"][0]["where"] == "trough, B1");
  CHECK(today["running"][0]["step"] == "60");
  CHECK(today["running"][0]["from"] == moment(work.now - 3600));  // the vacuum was entered an hour ago
  CHECK(today["running"][0]["count"] == 10);
  CHECK(today["not-entered"].empty());
  REQUIRE_FALSE(today["next"].empty());
  CHECK(today["next"].back()["what"] == "Cure");
}

TEST_CASE("an order that is compiled alone leaves open orders the places that they hold") {
  Work work;
  std::string second = bytes_of(work.jobs / "metric/burnisher.toml");
  second.replace(second.find("TA-0147"), 7, "TA-0148");
  second.replace(second.find("2027-06-18"), 10, "2027-05-10");
  put_bytes(work.jobs / "metric/second.toml", second);
  const auto first = work.plan();
  const ProgramRun compiled =
      work.run({"compile", "--quiet", "--out", work.jobs.out(), work.jobs / "metric/second.toml"});
  REQUIRE_MESSAGE(compiled.exit == Exit::done, compiled.errors);
  const Json written = Json::parse(bytes_of(work.jobs.out() + "/TA-0148/plan.json"));
  for (const Json& op : written["schedule"]) {
    const std::string name = op["op"].get<std::string>();
    if (!op["runs"][0]["resource"].is_string()) continue;
    CAPTURE(name);
    for (const Json& own : op["runs"]) {
      for (const auto& [other, held] : first) {
        for (const Json& run : held["runs"]) {
          const bool same_place = run["resource"] == own["resource"];
          const bool apart = own["end"] <= run["start"] || run["end"] <= own["start"];
          CHECK((!same_place || apart));
        }
      }
    }
  }
}

TEST_CASE(
    "compile without a job compiles the open orders from the folder that the shop file names, and nothing else") {
  Work work;
  std::filesystem::create_directories(work.jobs / "metric/orders");
  std::filesystem::rename(work.jobs / "metric/burnisher.toml", work.jobs / "metric/orders/burnisher.toml");
  std::string second = bytes_of(work.jobs / "metric/orders/burnisher.toml");
  second.replace(second.find("TA-0147"), 7, "TA-0148");
  put_bytes(work.jobs / "metric/orders/second.toml", second);
  put_bytes(work.jobs / "metric/shop.toml", "jobs = \"orders\"\n" + bytes_of(work.jobs / "metric/shop.toml"));
  const ProgramRun compiled = work.run({"compile", "--out", work.jobs.out()});
  CHECK_MESSAGE(compiled.exit == Exit::done, compiled.errors);
  CHECK(compiled.out.find("1 of 1 order compiled") != std::string::npos);
  CHECK(compiled.errors.find("order TA-0148 was never compiled") != std::string::npos);
}

TEST_CASE("a compile tells what moved since the last print, what moved it, and which pages are old") {
  Work work{"traveller,plan"};
  work.into_bath(work.blanks.size(), 20);  // a day earlier than planned
  const ProgramRun compiled = work.run({"compile", "--out", work.jobs.out(), work.jobs / "metric/burnisher.toml"});
  CHECK(compiled.out.find("since issue 1 of 2027-05-03") != std::string::npos);
  CHECK(compiled.out.find("moved by: entries 11 to ") != std::string::npos);
  // The cards' blanks are in the bath by now: what stands on that page is over, or stays.
  CHECK(compiled.out.find("old times on: 1-2 (Routing)\n") != std::string::npos);
}

TEST_CASE("a compile names the pages of other orders' prints that are old by it, as asking for each page does") {
  Work work{"traveller,plan"};
  std::string second = bytes_of(work.jobs / "metric/burnisher.toml");
  second.replace(second.find("TA-0147"), 7, "TA-0148");
  put_bytes(work.jobs / "metric/second.toml", second);
  work.hours(48);
  const ProgramRun compiled = work.run({"compile", "--out", work.jobs.out(), work.jobs / "metric/second.toml"});
  REQUIRE_MESSAGE(compiled.exit == Exit::done, compiled.errors);
  CHECK(compiled.out.find("TA-0147: not compiled, and moved") != std::string::npos);
  // It was to be sawn already; bath and oven stay when they were.
  CHECK(compiled.out.find("old times on: 1-2 (Routing)\n") != std::string::npos);
  const ProgramRun asked = work.run({"ask", "page", "TA-0147/1", "--as", "csv"});
  for (const char* page : {"\n1,Routing,no", "\n2,Routing,no", "\n5,\"Bath card 1, Oven card 1\",yes"})
    CHECK_MESSAGE(asked.out.find(page) != std::string::npos, asked.out);
}

TEST_CASE("an operation that the routing has anew, or no more, is told as moved") {
  Work work;
  std::string shop = bytes_of(work.jobs / "metric/shop.toml");
  shop.replace(shop.find("Sand and finish"), 15, "Oil");
  put_bytes(work.jobs / "metric/shop.toml", shop);
  const ProgramRun compiled = work.run({"compile", "--out", work.jobs.out(), work.jobs / "metric/burnisher.toml"});
  CHECK(compiled.out.find("new \"Oil\"; no more \"Sand and finish\"") != std::string::npos);
  CHECK(compiled.out.find("moved by: the shop file") != std::string::npos);
}

TEST_CASE("a blank is told whose it is, for when, and what is done to it next") {
  Work work;
  work.into_bath(work.blanks.size());
  const ProgramRun told = work.run({"ask", "blank", work.blanks.front()});
  CHECK(told.out.find("Osric Lamm") != std::string::npos);
  CHECK(told.out.find("2027-06-18") != std::string::npos);
  CHECK(told.out.find("60 Bath: vacuum, bath keeper, since 2027-05-05") != std::string::npos);
}

TEST_CASE("what was handed out is printed again byte for byte, whatever was entered, ordered or changed since") {
  Work work;
  const auto compile = [&](std::vector<std::string> flags) {
    std::vector<std::string> arguments{"compile", "--quiet", "--out", work.jobs.out()};
    arguments.insert(arguments.end(), flags.begin(), flags.end());
    const ProgramRun run = work.run(arguments);
    REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
  };
  const auto files = [&] {
    std::map<std::string, std::string> bytes;
    for (const char* name : {"traveller.pdf", "tags.pdf", "plan.json", "schedule.ics", "blanks.csv"}) {
      bytes[name] = bytes_of(work.jobs.out() + "/TA-0147/" + name);
    }
    return bytes;
  };
  const std::string job = work.jobs / "metric/burnisher.toml";
  std::string second = bytes_of(job);
  second.replace(second.find("TA-0147"), 7, "TA-0148");
  put_bytes(work.jobs / "metric/second.toml", second);
  compile({job});
  const auto first = files();
  work.into_bath(work.blanks.size());
  compile({job, work.jobs / "metric/second.toml"});
  const auto in_bath = files();
  CHECK(first.at("traveller.pdf") != in_bath.at("traveller.pdf"));

  work.hours(30);
  work.enter(0, "released", 0, {"bath=B1"});
  std::string changed = bytes_of(job);
  changed.replace(changed.find("quantity = 6"), 12, "quantity = 7");
  put_bytes(job, changed);
  compile({job});
  compile({"--again", "3", job});
  CHECK(files() == in_bath);
  compile({"--again", "last", job});
  CHECK(files() != in_bath);
  compile({"--again", "2", job});  // the first was a plan alone
  CHECK(files() == first);
  CHECK(work.run({"compile", "--again", "9", job}).exit == Exit::mistakes);
}

TEST_CASE("a bath goes on in its vessel also where the shop has it no more; without any vessel that is told") {
  Work work;
  work.into_bath(work.blanks.size());
  work.hours(1);
  const std::string shop = bytes_of(work.shop);
  const std::size_t first = shop.find("[[vessels]]"), second = shop.find("[[vessels]]", first + 1);
  const std::size_t end = shop.find("[pump]");
  put_bytes(work.shop, shop.substr(0, second) + shop.substr(end));  // the trough, in which they are
  const auto plan = work.plan();
  CHECK(plan.at("Bath: vacuum")["runs"][0]["resource"] == "trough");
  CHECK(blanks_of(plan.at("Cure"), false) == 10);
  put_bytes(work.shop, shop.substr(0, first) + shop.substr(end));
  const ProgramRun refused = work.run({"compile", "--out", work.jobs.out(), work.jobs / "metric/burnisher.toml"});
  CHECK(refused.exit == Exit::mistakes);
  CHECK(refused.errors.find("10 blanks of the order were in a bath and are not cured") != std::string::npos);
}

TEST_CASE("an open order that cannot be planned any more is named, and the others are planned without it") {
  Work work;
  const auto with_other_resin = [](std::string text) {
    for (auto at = text.find("Clear K"); at != std::string::npos; at = text.find("Clear K")) text.at(at + 6) = 'L';
    return text;
  };
  put_bytes(work.shop, with_other_resin(bytes_of(work.shop)));
  std::string second = with_other_resin(bytes_of(work.jobs / "metric/burnisher.toml"));
  second.replace(second.find("TA-0147"), 7, "TA-0148");
  put_bytes(work.jobs / "metric/second.toml", second);
  const ProgramRun compiled = work.run({"compile", "--out", work.jobs.out(), work.jobs / "metric/second.toml"});
  CHECK(compiled.exit == Exit::done);
  CHECK(compiled.errors.find("order \"TA-0147\" is open in the register and cannot be planned") != std::string::npos);
  CHECK(compiled.errors.find("[open-order-not-planned]") != std::string::npos);
}

TEST_CASE("today's sheet is one page of the shop's paper, in the words of its template") {
  for (const Sample& sample : samples()) {
    CAPTURE(sample.id);
    const SampleJobs jobs;
    const std::string shop = jobs / (sample.job.substr(0, sample.job.find('/')) + "/shop.toml");
    REQUIRE(run_program({"compile", "--quiet", "--out", jobs.out(), jobs / sample.job}).exit == Exit::done);
    const std::string sheet = jobs.out() + "/today.pdf";
    const ProgramRun told = run_program({"today", "--shop", shop, "--out", sheet});
    REQUIRE_MESSAGE(told.exit == Exit::done, told.errors);
    const ToolRun info = run_tool("pdfinfo " + shell_quoted(sheet));
    CHECK(info.out.find("Pages:           1\n") != std::string::npos);
    CHECK(info.out.find(sample.paper) != std::string::npos);
    const std::string text = copied_text(bytes_of(sheet));
    CHECK(text.find(sample.id) != std::string::npos);
    const bool german = sample.job.starts_with("german");
    CHECK(text.find(german ? "Heute" : "Today") != std::string::npos);
    CHECK(told.out.find(german ? "Vor dem Heimgehen" : "Before leaving") != std::string::npos);
  }
}

TEST_CASE("a load that dries holds the oven until it is out, and its blanks count once") {
  Work work;
  work.enter(0, "board", 0, {"board=A1"});
  work.enter(1, "sawn", work.blanks.size(), {"board=A1"});
  work.enter(1, "moisture", work.blanks.size(), {"moisture=9 %"});
  work.enter(1, "into-drying", 6, {"load=D1"});
  const std::int64_t begun = work.now;
  work.hours(1);
  const Json drying = work.plan().at("Oven-dry");
  REQUIRE(drying["runs"].size() == 2);
  CHECK(drying["runs"][0]["name"] == "D1");
  CHECK(drying["runs"][0]["start"] == moment(begun));
  // 24 h by the shop's table and 2 h between the two weighings; then somebody has to be there.
  CHECK(drying["runs"][0]["end"] >= moment(begun + 26 * 3600));
  CHECK(drying["runs"][0]["blanks"] == 6);
  CHECK(drying["runs"][1]["blanks"] == 4);
  CHECK(drying["runs"][1]["start"] >= drying["runs"][0]["end"]);
}
