// What was said wrongly, or did not arrive whole, is no fact.

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <utility>
#include <vector>

#include "workshop.h"

using namespace blankwright;
using namespace std::string_literals;

TEST_CASE("a refused figure is never taken for one of another keyboard") {
  Workshop w;
  const std::vector<std::pair<std::string, std::string>> rows{
      {"weighed", "-0.3"}, {"weighed", "-12.5"},  {"weighed", "18'4"},     {"weighed", "-"},    {"weighed", "--"},
      {"weighed", "''"},   {"moisture", "8-12"},  {"measured", "45,"},     {"measured", "é,"},  {"weighed", "\""},
      {"weighed", "1,5"},  {"measured", "1.5''"}, {"weighed", "&\"&: kg"}, {"weighed", "(-) g"}};
  for (const auto& [kind, typed] : rows) {
    CAPTURE(typed);
    const auto lines = w.bench(kind + "\nNG7-32GX\n" + typed + "\n" + kind + " JF2-T4JV " + typed + "\n");
    CHECK(is_refused(lines.at(2)));
    CHECK(lines.at(2).find("NG7-32GX was not entered") != std::string::npos);
    CHECK(is_refused(lines.at(3)));
  }
  const auto under_way = nlohmann::json::parse(w.run({"ask", "under-way", "--as", "json"}).out).at("rows");
  for (const auto& row : under_way) CHECK(row.at("stage") == "to be sawn");
  for (const char* id : {"NG7-32GX", "JF2-T4JV"}) {
    const std::string history = w.run({"ask", "blank", id}).out;
    for (const char* entered : {"weighed", "moisture ", "measured"}) {
      CHECK(history.find(entered + ":"s) == std::string::npos);
      CHECK(history.find("mass ") == std::string::npos);
    }
  }
}

TEST_CASE("what is refused is told in the shop's units") {
  const SampleJobs jobs;
  const std::string shop = jobs / "inch/shop.toml";
  std::int64_t now = noon;
  const auto run = [&](std::vector<std::string> words) {
    words.insert(words.end(), {"--shop", shop});
    return run_program(std::move(words), now);
  };
  REQUIRE(run_program({"compile", "--quiet", "--only", "blanks", "--out", jobs.out(), jobs / "inch/knob.toml"}, noon)
              .exit == Exit::done);
  std::ifstream list{jobs.out() + "/CC-2026.2/blanks.csv"};
  std::string id;
  for (int line = 0; line < 2; ++line) std::getline(list, id);
  id.resize(8);
  const auto enter = [&](std::vector<std::string> words) {
    words.insert(words.begin(), "enter");
    return run(std::move(words));
  };
  REQUIRE(enter({"weighed", id, "mass=4 oz"}).exit == Exit::done);
  REQUIRE(enter({"out-of-oven", id, "--override", "cured elsewhere"}).exit == Exit::done);
  CHECK(enter({"weighed", id, "mass=3 oz"})
            .errors.find("would weigh 3.00 oz, less than the 4.00 oz that it weighed dry") != std::string::npos);
  REQUIRE(enter({"squared", id, "width=1.5 in", "depth=1.5 in"}).exit == Exit::done);
  const auto bored = [&](const char* face_3, std::vector<std::string> more) {
    std::vector<std::string> words{
        "bored",       id,         "face_1=0.75 in", "face_2=0.75 in", face_3, "face_4=0.75 in", "lean_1=0 in",
        "lean_2=0 in", "over=4 in"};
    words.insert(words.end(), more.begin(), more.end());
    return enter(std::move(words));
  };
  const std::string apart = "faces 1 and 3 are 1.750 in apart by these figures, and the blank is 1.500 in wide";
  CHECK_MESSAGE(bored("face_3=1 in", {}).errors.find(apart) != std::string::npos, bored("face_3=1 in", {}).errors);
  // Also where an entry that came late is held against what it would stand before.
  now += 7200;
  REQUIRE(bored("face_3=0.75 in", {}).exit == Exit::done);
  CHECK(bored("face_3=1 in", {"--at", "2027-05-03T13:00:00Z"}).errors.find(apart) != std::string::npos);
}

TEST_CASE("what is scanned is no name and no reason") {
  Workshop w;
  const auto refused_as = [&](const std::string& lines, const std::string& why) {
    CAPTURE(lines);
    const auto answers = w.bench(lines);
    const auto is_it = [&](const std::string& line) {
      return is_refused(line) && line.find(why) != std::string::npos;
    };
    CHECK(std::ranges::any_of(answers, is_it));
    const auto enters = [](const std::string& line) { return line.find("scrapped: reason ") != line.npos; };
    CHECK(std::ranges::none_of(answers, enters));
  };
  const std::string bath = "bath: NG7-32GX is a blank, not a bath";
  for (const char* id : {"NG7-32GX", "ng732gx", "NG7 32GX", "NGè\"éGX", "NG7-32GX JF2-T4JV", "NG7 32GX JF2-T4JV"}) {
    refused_as("XNBN\n"s + id + "\n", bath);
    refused_as("XNBN "s + id + "\n", bath);
  }
  refused_as("XCPG\nSG8-CRCT\n8CC-F3G3\n", "reason: 8CC-F3G3 is a blank, not a reason");
  refused_as("scrapped SG8-CRCT split\n8CC-F3G3\n", "reason: SG8-CRCT is a blank, not a reason");
  refused_as("XNVG xcpg\n", "load: xcpg is an action code, not a load");
  refused_as("XNVG weighed\n", "load: \"weighed\" is what is done, not a load");
  refused_as("XNVG undo\n", "load: \"undo\" is what is done, not a load");
  refused_as("person SG8-CRCT\n", "person: SG8-CRCT is a blank, not a person");
  refused_as("sent JF2-T4JV\noverride XTXR\n", "override: XTXR is an action code");
  // A code begins what it says, wherever it is scanned, and what was half said is told.
  CHECK(w.bench("XNBN\nXCPG\nXKGB\nNG7-32GX\nXVCB\nweighed\n") ==
        std::vector<std::string>{"OK into-bath: bath?", "NO into-bath was not entered; OK scrapped: reason?\a",
                                 "NO scrapped was not entered; OK weighed: scan a blank\a", "OK NG7-32GX: mass in g?",
                                 "NO NG7-32GX was not entered; OK vacuum-on: bath?\a",
                                 "NO vacuum-on was not entered; OK weighed: scan a blank\a"});
  // By command and table, too.
  const ProgramRun command = w.run({"enter", "into-bath", "NG7-32GX", "bath=JF2 t4jv", "remark=XNDT"});
  CHECK(command.errors.find("bath: JF2-T4JV is a blank, not a bath") != std::string::npos);
  CHECK(command.errors.find("remark: XNDT is an action code, not a remark") != std::string::npos);
  std::ofstream{w.jobs / "metric/all.csv"} << "kind,blank,reason,person\nscrapped,NG7-32GX,XCPG,\n"
                                              "scrapped,NG7-32GX,split,8CC-F3G3\n";
  const ProgramRun table = w.run({"enter", "--csv", w.jobs / "metric/all.csv"});
  CHECK(table.exit == Exit::mistakes);
  CHECK(table.errors.find("line 2: reason: XCPG is an action code") != std::string::npos);
  CHECK(table.errors.find("line 3: person: 8CC-F3G3 is a blank") != std::string::npos);
}

TEST_CASE("a reason may begin with a word of the bench, and stands alone only where it is none") {
  Workshop w;
  const std::vector<std::string> reasons{"end check too deep",  "undo the mess",      "person dropped it",
                                         "help came too late",  "unit of the jig",    "tare 3 was wrong",
                                         "override of the saw", "weighed too little", "sent"};
  for (const std::string& reason : reasons) {
    CAPTURE(reason);
    const auto lines = w.bench("weighed JF2-T4JV 131\nscrapped\n" + reason + "\nNG7-32GX\nundo\nend\n");
    REQUIRE(lines.size() == 6);
    CHECK(lines.at(2) == "OK scrapped, reason " + reason + ": scan a blank");
    CHECK(lines.at(3) == "OK NG7-32GX scrapped: reason " + reason);
    CHECK(lines.at(4).starts_with("OK taken back: NG7-32GX scrapped"));
    CHECK(lines.at(5) == "OK 1 entered");
  }
  for (const char* undo : {"undo", "XNDT"}) {
    CHECK(w.bench("weighed JF2-T4JV 131\nscrapped\n"s + undo + "\n")
              .at(2)
              .starts_with("OK taken back: JF2-T4JV weighed"));
  }
  CHECK(w.bench("scrapped\nend\nXKGB\n").back() == "NO scrapped was not entered; 0 entered before\a");
  const auto helped = w.bench("scrapped\nhelp\n");
  CHECK(helped.at(helped.size() - 2) == "scrapped: reason?");
  // Where no text is due, they stand alone as well.
  const auto lines = w.bench("weighed JF2-T4JV 131\nundo the mess\nend of the day\nend\n");
  CHECK(is_refused(lines.at(1)));
  CHECK(is_refused(lines.at(2)));
  CHECK(lines.at(3) == "OK 1 entered");
}

TEST_CASE("nothing is entered for a blank that the last lines did not show") {
  Workshop w;
  const auto lines = w.bench(
      "weighed\nNG7-32GX 1,5\nJF2-T4JV heavy\n150\nNG7-32GX\nunit stone\n150\n"
      "NG7-32GX\nunit oz\nend\n");
  REQUIRE(lines.size() == 10);
  for (const std::size_t k : {1U, 2U, 3U, 5U, 6U, 9U}) {
    CAPTURE(lines.at(k));
    CHECK(is_refused(lines.at(k)));
  }
  CHECK(lines.at(1).ends_with("; NG7-32GX was not entered\a"));
  CHECK(lines.at(2).ends_with("; JF2-T4JV was not entered\a"));
  CHECK(lines.at(5).ends_with("; NG7-32GX was not entered\a"));
  CHECK(lines.at(8) == "OK bare masses are in oz; NG7-32GX: mass in oz?");
  CHECK(lines.at(9) == "NO NG7-32GX was not entered; 0 entered before\a");
  // What was refused is overridden at once or not at all.
  CHECK(is_refused(w.bench("sent NG7-32GX\nweighed JF2-T4JV 131\noverride it is so\n").back()));
  CHECK(is_refused(w.bench("sent NG7-32GX\ndrained\noverride it is so\n").back()));
  // More than was asked for: neither the one nor the other.
  CHECK(w.bench("weighed SG8-CRCT 131 g JF2-T4JV\ndrained SG8-CRCT JF2-T4JV\nvacuum-on A B\n\n") ==
        std::vector<std::string>{
            "NO mass: unknown unit \"g JF2-T4JV\" where a mass belongs; such as 153 g; SG8-CRCT was not entered\a",
            "NO \"JF2-T4JV\" is more than drained asks for; SG8-CRCT was not entered\a",
            "NO \"B\" is more than vacuum-on asks for; vacuum-on, bath A was not entered\a", "OK what is done?"});
  const std::string longest(100'000, 'x');
  CHECK(is_refused(w.bench("scrapped\n" + longest + "\n").at(1)));
}

TEST_CASE("a last line without a line end broke off") {
  Workshop w;
  CHECK(w.bench("weighed\nNG7-32GX 18") ==
        std::vector<std::string>{"OK weighed: scan a blank",
                                 "NO the last line broke off before its line end and was not entered\a"});
  CHECK(w.bench("weighed\nNG7-32GX\n18").back() ==
        "NO the last line broke off before its line end and was not entered; NG7-32GX was not entered\a");
  CHECK(w.bench("weighed\nNG7-32GX\n").back() == "NO NG7-32GX was not entered\a");
  CHECK(w.bench("weighed NG7-32GX 131\nend").size() == 2);
  CHECK(w.run({"ask", "blank", "NG7-32GX"}).out.find("18.0 g") == std::string::npos);
  // A table that lost its last byte: 45 mm became 45 m.
  std::ofstream{w.jobs / "metric/all.csv"} << "kind,blank,width,depth\nmeasured,NG7-32GX,45 mm,45 m";
  const ProgramRun table = w.run({"enter", "--csv", w.jobs / "metric/all.csv"});
  CHECK(table.exit == Exit::mistakes);
  CHECK(table.errors.find("line 2: the table's last line has no line end: it may be cut short; add one") !=
        std::string::npos);
}

TEST_CASE("a figure outside its field's range is refused wherever it comes from") {
  Workshop w;
  const std::string why = "width is between 0.001 and 1 m; 45 m is not: 45 mm?";
  const ProgramRun command = w.run({"enter", "measured", "NG7-32GX", "width=45 m", "depth=45 mm"});
  CHECK(command.exit == Exit::mistakes);
  CHECK(command.errors == "blankwright: " + why + "\nNothing was entered.\n");
  std::ofstream{w.jobs / "metric/all.csv"} << "kind,blank,width,depth\nmeasured,NG7-32GX,45 m,45 mm\n";
  CHECK(w.run({"enter", "--csv", w.jobs / "metric/all.csv"}).errors.find("line 2: " + why) != std::string::npos);
  CHECK(w.bench("measured NG7-32GX 45 m\n").back() == "NO " + why + "; NG7-32GX was not entered\a");
  CHECK(w.bench("weighed NG7-32GX 1000000\n").back() ==
        "NO mass is between 0.1 and 100000 g; 1000000 g is not; NG7-32GX was not entered\a");
  // A board is longer than any blank.
  CHECK(w.run({"enter", "board", "board=B-12", "length=4 m"}).exit == Exit::done);
  CHECK(w.run({"enter", "measured", "NG7-32GX", "width=45 mm", "depth=45 mm", "length=4 m"}).exit == Exit::mistakes);

  const std::string file = w.jobs / "metric/all.jsonl";
  CHECK(w.run({"enter", "measured", "NG7-32GX", "width=45 mm", "depth=46 mm"}).exit == Exit::done);
  CHECK(w.run({"export", file}).exit == Exit::done);
  std::string text = bytes_of(file);
  const std::size_t at = text.find("\"width\":0.045");
  REQUIRE(at != std::string::npos);
  text.replace(at, 13, "\"width\":45.0");
  std::ofstream{file, std::ios::binary} << text;
  std::filesystem::remove(w.jobs / "metric/shop.register");
  const ProgramRun import = w.run({"import", file});
  CHECK(import.exit == Exit::mistakes);
  CHECK(import.errors.find("line 19: width is between 1 and 1000 mm; 45000 mm is not") != std::string::npos);
}
