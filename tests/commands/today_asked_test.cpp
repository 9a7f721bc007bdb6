// What today's list asks, and what it names beside: questions, HOLDs that were passed, broken waits, the next day.

#include <doctest/doctest.h>

#include <algorithm>

#include "shop_at_work.h"

using namespace blankwright;
using Json = nlohmann::json;

namespace {

/// The rows that ask of that operation.
std::vector<std::string> notes_of(std::map<std::string, std::vector<Json>> today, const std::string& section,
                                  const std::string& operation) {
  std::vector<std::string> notes;
  for (const Json& row : today[section]) {
    if (row["what"].get<std::string>().starts_with(operation)) notes.push_back(row.value("note", ""));
  }
  return notes;
}

bool begins_with(const std::vector<std::string>& notes, const char* text) {
  return notes.size() == 1 && notes.front().starts_with(text);
}

/// The first person's list.
std::string title_of_hands(const ProgramRun& told) {
  const Json list = Json::parse(told.out);
  for (const Json& section : list["sections"]) {
    if (section["section"] == "hands") return section["title"];
  }
  return {};
}

}  // namespace

TEST_CASE("a compile takes no question back: what an earlier print planned is asked until it is entered") {
  Work work;
  work.now = noon + 20 * 3600;  // after the sawing was to be over
  const ProgramRun compiled = work.run({"compile", "--out", work.jobs.out(), work.jobs / "metric/burnisher.toml"});
  CHECK(compiled.out.ends_with("1 thing to enter or decide: run `blankwright today`\n"));
  CHECK(begins_with(notes_of(work.today(), "not-entered", "Saw the blanks"), "10 of 10, due"));
  work.enter(0, "board", 0, {"board=A1"});
  work.enter(0, "sawn", 4, {"board=A1"});
  CHECK(begins_with(notes_of(work.today(), "not-entered", "Saw the blanks"), "6 of 10, due"));
  work.enter(0, "sawn", 6, {"board=A1"}, 4);
  CHECK(notes_of(work.today(), "not-entered", "Saw the blanks").empty());
}

TEST_CASE("a plan that was replaced before its time asks nothing") {
  Work work;
  const ProgramRun compiled = work.run(
      {"compile", "--at", "2027-05-10 08:00", "--out", work.jobs.out(), work.jobs / "metric/burnisher.toml"});
  REQUIRE(compiled.exit == Exit::done);
  work.now = noon + 20 * 3600;  // by the first print the sawing was to be over
  CHECK_FALSE(work.today().contains("not-entered"));
}

TEST_CASE("each group of an order is asked of when its own time is over") {
  Work work;
  work.into_bath(7, 20);  // a day earlier than the first print had it
  const Json vacuum = work.plan().at("Bath: vacuum");
  REQUIRE(vacuum["runs"].size() == 2);
  work.hours(18);  // about six of vacuum by the sample's first plan, and its keeper comes in the morning
  REQUIRE(moment(work.now) > vacuum["runs"][0]["end"].get<std::string>());
  REQUIRE(moment(work.now) < vacuum["runs"][1]["end"].get<std::string>());
  CHECK(begins_with(notes_of(work.today(), "not-entered", "Bath: vacuum"), "7 of 10, due"));
}

TEST_CASE("a HOLD of the routing that a blank went past is told until it is answered") {
  Work work;
  work.enter(0, "board", 0, {"board=A1"});
  work.enter(1, "sawn", 3, {"board=A1"});
  const auto asked = [&] { return notes_of(work.today(), "hold", "Stamp and tag, check the moisture"); };
  CHECK(asked().empty());  // it is next
  work.enter(1, "into-drying", 2, {"load=D1"});
  const ProgramRun told = work.run({"enter", "into-drying", work.blanks.at(2), "load=D1"});
  CHECK(told.out.find(work.blanks.at(2) + " not entered: 20 Stamp and tag") != std::string::npos);
  REQUIRE(asked().size() == 1);
  CHECK(asked().front().find(work.blanks.at(2)) != std::string::npos);
  const std::string hold =
      "20 Stamp and tag, check the moisture: stamp and tag of every blank read back, one against the other";
  CHECK(work.run({"ask", "blank", work.blanks.front()}).out.find(hold) != std::string::npos);
  work.enter(0, "done", 2, {"operation=Stamp and tag, check the moisture"});
  CHECK(begins_with(asked(), (work.blanks.at(2) + ": ").c_str()));
  CHECK(work.run({"ask", "blank", work.blanks.front()}).out.find(hold) == std::string::npos);
  work.enter(0, "moisture", 1, {"moisture=9 %"}, 2);
  CHECK(asked().empty());
}

TEST_CASE("a wait that is broken stands among what is late") {
  Work work;
  work.into_bath(work.blanks.size());
  work.enter(8, "released", 0, {"bath=B1"});
  work.now = noon + 3 * 24 * 3600 + 8 * 3600;  // 22:00 in the shop's zone: nobody is there to drain them
  work.enter(0, "out-of-bath", work.blanks.size());
  auto today = work.today();
  CHECK(begins_with(notes_of(today, "late", "Drain, wipe, weigh wet"), "10 wait since 22:00, at most 0 min"));
  CHECK(today["late"][0]["from"] == "2027-05-06T22:00:00+02:00");
  CHECK(today["late"][0]["count"] == 10);
}

TEST_CASE("a list of another day names the day") {
  Work work;
  work.now = noon + 8 * 3600;  // Monday, 22:00 in the shop's zone
  CHECK(title_of_hands(work.run({"today", "--as", "json"})) == "bath keeper · Tue 4 May 2027");
  work.now = noon + 3600;
  CHECK(title_of_hands(work.run({"today", "--as", "json"})) == "bath keeper");
  // What is left of the day takes nobody's hands: then the next day's list stands there.
  work.into_bath(work.blanks.size());
  work.hours(1);
  REQUIRE(work.today().contains("hands"));
}

TEST_CASE("blanks that have no ID yet are to be compiled first") {
  Work work;
  CHECK_FALSE(work.today().contains("hold"));
  work.enter(0, "board", 0, {"board=A1"});
  work.enter(1, "sawn", 9, {"board=A1"});
  work.enter(0, "scrapped", 6, {"reason=cracked"});
  const auto held = work.today()["hold"];
  REQUIRE_FALSE(held.empty());
  CHECK(held.front()["what"].get<std::string>().starts_with("compile first; blanks without an ID: "));
  CHECK(held.front()["order"] == "TA-0147");
  work.plan();
  CHECK(notes_of(work.today(), "hold", "compile first").empty());
}

TEST_CASE("what is next for a blank is told with the time of its own group, and never with a past one") {
  Work work;
  const auto next = [&](std::size_t blank) {
    const std::string told = work.run({"ask", "blank", work.blanks.at(blank)}).out;
    const auto from = told.find("next");
    return told.substr(from, told.find('\n', from) - from);
  };
  work.enter(0, "board", 0, {"board=A1"});
  work.enter(1, "sawn", 1, {"board=A1"});
  work.hours(3);
  const std::string saw = next(1);
  CHECK(saw.find("10 Saw the blanks") != std::string::npos);
  CHECK(saw.substr(saw.size() - 16) >= "2027-05-03 18:00");  // by the shop's clock
  Work bath;
  bath.into_bath(7, 20);
  const Json runs = bath.plan().at("Bath: vacuum")["runs"];
  const auto told = [&](std::size_t blank) {
    const std::string out = bath.run({"ask", "blank", bath.blanks.at(blank)}).out;
    return out.substr(0, out.find("check"));
  };
  const auto clock = [](const Json& at) {
    std::string text = at.get<std::string>().substr(0, 16);
    text.at(10) = ' ';
    return text;
  };
  // The shop holds a vacuum for 6 h, and pumps down for some minutes before.
  CHECK(told(0).find("since 2027-05-04 15:00, until 2027-05-04 21:") != std::string::npos);
  CHECK(told(8).find("60 Bath: vacuum, bath keeper, " + clock(runs[1]["start"])) != std::string::npos);
}

TEST_CASE("what begins next says how many of its blanks are on HOLD before it") {
  Work work;
  work.into_bath(work.blanks.size(), 20);
  work.enter(0, "target-reached", 0, {"bath=B1", "gauge=90 kPa"});
  work.enter(7, "bubbling-ended", 0, {"bath=B1"});
  work.enter(0, "released", 0, {"bath=B1"});
  work.enter(16, "drained", work.blanks.size());
  work.enter(0, "weighed", work.blanks.size() - 1, {"mass=230 g"}, 1);
  work.enter(0, "weighed", 1, {"mass=400 g"});  // more than wood of 110 g and 257 cm³ can hold
  const auto orders = [&](const std::string& section, const std::string& operation) {
    std::vector<std::string> out;
    auto today = work.today();
    for (const Json& row : today[section]) {
      if (row["what"].get<std::string>().starts_with(operation)) out.push_back(row["order"]);
    }
    return out;
  };
  using Orders = std::vector<std::string>;
  CHECK(notes_of(work.today(), "hold", "resin").front().starts_with(work.blanks.front() + ": "));
  CHECK(orders("hands", "Cure, begin") == Orders{"TA-0147 (10, 1 HOLD)"});
  CHECK(orders("next", "Cure") == Orders{"TA-0147 (10, 1 HOLD)"});
  CHECK(orders("hands", "Cure, end") == Orders{"TA-0147 (10)"});  // by then it is told anew
  work.enter(0, "scrapped", 1, {"reason=cracked"});
  CHECK(orders("hands", "Cure, begin") == Orders{"TA-0147 (9)"});
}

TEST_CASE("blanks that have to soak again are planned into a bath of their own, and the others go on without them") {
  Work work;
  work.into_bath(work.blanks.size(), 20);
  work.enter(0, "target-reached", 0, {"bath=B1", "gauge=90 kPa"});
  work.enter(7, "released", 0, {"bath=B1"});
  work.enter(16, "drained", work.blanks.size());
  work.enter(0, "weighed", work.blanks.size() - 2, {"mass=230 g"}, 2);
  work.enter(0, "weighed", 2, {"mass=130 g"});  // of 110 g when they were dry
  const int others = static_cast<int>(work.blanks.size()) - 2;
  const auto plan = work.plan();
  CHECK(blanks_of(plan.at("Oven-dry"), false) == 0);
  CHECK(blanks_of(plan.at("Bath: vacuum"), false) == 2);
  CHECK(blanks_of(plan.at("Bath: soak through the night"), false) == 2);
  CHECK(blanks_of(plan.at("Drain, wipe, weigh wet"), false) == 2);
  const Json cures = plan.at("Cure")["runs"];
  REQUIRE(cures.size() == 2);
  CHECK(cures[0]["blanks"] == others);
  CHECK(cures[0]["name"] == "B1");
  CHECK(cures[1]["blanks"] == 2);
  CHECK(cures[1]["start"] >= plan.at("Bath: soak through the night")["end"]);
  const Json written = Json::parse(bytes_of(work.jobs.out() + "/TA-0147/plan.json"));
  REQUIRE(written["baths"].size() == 1);
  CHECK(written["baths"][0]["blanks"] == Json(std::vector(work.blanks.begin(), work.blanks.begin() + 2)));
  // No witness more is sawn for it: the first bath had its own. Nor is anything asked of it that is done.
  CHECK(written["start_count"]["witnesses"] == 1);
  auto today = work.today();
  CHECK(today["not-entered"].empty());
  // Once enough went in they go on.
  work.enter(0, "weighed", 2, {"mass=230 g"});
  CHECK(blanks_of(work.plan().at("Bath: vacuum"), false) == 0);
}

TEST_CASE("a blank that has to dry on is planned to dry on, and goes into no bath before") {
  Work work;
  work.enter(0, "board", 0, {"board=A1"});
  work.enter(1, "sawn", work.blanks.size(), {"board=A1"});
  work.enter(1, "moisture", work.blanks.size(), {"moisture=9 %"});
  work.enter(1, "into-drying", work.blanks.size(), {"load=D1"});
  work.enter(20, "weighed", work.blanks.size(), {"mass=114 g"});
  work.enter(3, "weighed", work.blanks.size(), {"mass=110 g"});  // 3.6 % of its mass in three hours
  work.enter(0, "out-of-drying", work.blanks.size());
  work.enter(0, "measured", work.blanks.size(), {"width=41 mm", "depth=41 mm", "length=153 mm"});
  work.hours(1);
  const auto plan = work.plan();
  CHECK(blanks_of(plan.at("Oven-dry"), false) == 10);
  CHECK(plan.at("Bath: vacuum")["start"] >= plan.at("Oven-dry")["end"]);
  CHECK(notes_of(work.today(), "not-entered", "Oven-dry").empty());
  CHECK_FALSE(work.today()["hold"].empty());
  CHECK(work.run({"ask", "blank", work.blanks.front()}).out.find("30 Oven-dry, bath keeper") != std::string::npos);
}
