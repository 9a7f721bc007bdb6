#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "workshop.h"

using namespace blankwright;
using namespace std::string_literals;

TEST_CASE("a scanner that types says what is done, then blanks, and is asked for each figure") {
  Workshop w;
  CHECK(w.bench("XKGB\nNG732GX\n131.0\nJF2-T4JV\n130 g\n") ==
        std::vector<std::string>{"OK weighed: scan a blank", "OK NG7-32GX: mass in g?",
                                 "OK NG7-32GX weighed: mass 131.0 g | weigh it again, from 2027-05-03 16:00 on",
                                 "OK JF2-T4JV: mass in g?",
                                 "OK JF2-T4JV weighed: mass 130.0 g | weigh it again, from 2027-05-03 16:00 on"});
}

TEST_CASE("a person with a keyboard says all in one line") {
  Workshop w;
  const auto lines =
      w.bench("weighed NG7-32GX 131.0 g\nresin-opened R-1\nstrained-back R-1 2 l\ngraded go-on JF2-T4JV\n");
  CHECK(lines.at(0).starts_with("OK NG7-32GX weighed: mass 131.0 g"));
  CHECK(lines.at(2) == "OK strained-back: resin R-1, volume 2.00 l");
  CHECK(lines.at(3) == "NO JF2-T4JV is not cured\a");
}

TEST_CASE("what went in although something stands against it is no OK, and says how it is taken back") {
  Workshop w;
  CHECK(w.bench("weighed NG7-32GX 131.0 g\ninto-bath B1 NG7-32GX\nundo\n") ==
        std::vector<std::string>{
            "OK NG7-32GX weighed: mass 131.0 g | weigh it again, from 2027-05-03 16:00 on",
            "NO went on against its check (dry): weigh it again, from 2027-05-03 16:00 on | NG7-32GX into-bath: "
            "bath B1 | entered all the same; `undo` takes it back | bath B1: new | not entered: 20 Stamp and tag, "
            "check "
            "the moisture: stamp and tag of every blank read back, one against the other\a",
            "OK taken back: NG7-32GX into-bath (entry 12)"});
  // Of no blank: a bath that was released too soon.
  for (const char* what : {"weighed NG7-32GX 131.0 g", "into-bath B2 NG7-32GX", "vacuum-on B2"})
    w.bench(what + "\n"s);
  const auto released = w.bench("released B2\n").back();
  CHECK(released.starts_with("NO HOLD: nobody entered that it reached its vacuum"));
  CHECK(released.ends_with("| released: bath B2 | entered all the same; `undo` takes it back\a"));
  // A weighing is against nothing, but shows what must not be missed: far more than its size of solid wood weighs.
  const auto heavy = w.bench("weighed JF2-T4JV 1844\n").back();
  CHECK(heavy.starts_with("NO HOLD: for its size it weighs more than wood without a pore"));
  CHECK(heavy.ends_with("| JF2-T4JV weighed: mass 1844.0 g | entered; `undo` takes it back\a"));
  CHECK(w.run({"ask", "blank", "JF2-T4JV"}).out.find("1844.0 g") != std::string::npos);
}

TEST_CASE("what is wrong is answered NO with a bell, and nothing of it is entered") {
  Workshop w;
  const auto lines = w.bench(
      "hello\n"  // no such thing
      "XKGB\n"
      "NG7-32GH\n"  // mistyped
      "K7T-4X54\n"  // never issued
      "NG7-32GX\n"
      "heavy\n"  // no figure
      "NG7-32GX\n"
      "JF2-T4JV\n"       // the figure was forgotten
      "XNBX\n"           // a code that is none: an answer to "mass" that is none either
      "sent JF2-T4JV\n"  // cannot be
      "undo\n");         // nothing to take back
  REQUIRE(lines.size() == 11);
  for (const std::size_t k : {0U, 2U, 3U, 5U, 7U, 8U, 9U, 10U}) {
    CAPTURE(lines.at(k));
    CHECK(is_refused(lines.at(k)));
  }
  CHECK(lines.at(3) == "NO the register has no blank K7T-4X54\a");
  CHECK(lines.at(7) == "NO NG7-32GX has no mass and was not entered; OK JF2-T4JV: mass in g?\a");
  const auto rows = nlohmann::json::parse(w.run({"ask", "under-way", "--as", "json"}).out).at("rows");
  for (const auto& row : rows) CHECK(row.at("stage") == "to be sawn");
  CHECK(w.run({"ask", "blank", "NG7-32GX"}).out.find("mass") == std::string::npos);
}

TEST_CASE("the gauge stands behind its bath, on the same line") {
  Workshop w;
  for (const char* word : {"into-bath", "vacuum-on"}) {
    std::vector<std::string> said{"enter", word, "bath=A"};
    if (std::string_view{word} == "into-bath") said.insert(said.begin() + 2, "NG7-32GX");
    REQUIRE(w.run(std::move(said)).exit == Exit::done);
  }
  SUBCASE("with its unit") {
    const auto lines = w.bench("target-reached A 91 kPa\n");
    CHECK_MESSAGE(lines.at(0).starts_with("OK target-reached: bath A, gauge 91.0 kPa"), lines.at(0));
  }
  SUBCASE("or with the sign that gauges have, without which it is shown") {
    const auto lines = w.bench("target-reached A -91 kPa\n");
    CHECK_MESSAGE(lines.at(0).starts_with("OK target-reached: bath A, gauge 91.0 kPa"), lines.at(0));
  }
  SUBCASE("or without the gauge") {
    CHECK(w.bench("target-reached A\n").at(0).starts_with("OK target-reached: bath A"));
  }
  SUBCASE("a figure that is none, or one too many, is refused") {
    CHECK(is_refused(w.bench("target-reached A -91\n").at(0)));
    CHECK(is_refused(w.bench("released A -91 kPa\n").at(0)));
    CHECK(w.run({"ask", "bath", "A"}).out.find("91.0 kPa") == std::string::npos);
  }
}

TEST_CASE("the tag that stays on is taken off each mass") {
  Workshop w;
  const auto lines = w.bench("tare 3\nXKGB NG7-32GX 134\ntare heavy\ntare 0\nXKGB JF2-T4JV 134\n");
  REQUIRE(lines.size() == 5);
  CHECK(lines.at(0) == "OK tag of 3.0 g taken off each mass");
  CHECK(lines.at(1).starts_with("OK NG7-32GX weighed: mass 134.0 g, tare 3.0 g"));
  CHECK(is_refused(lines.at(2)));
  CHECK(lines.at(3) == "OK masses are without tag");
  CHECK(lines.at(4).starts_with("OK JF2-T4JV weighed: mass 134.0 g |"));
}

TEST_CASE("rows of one table are judged by those above them") {
  Workshop w;
  w.hours(8);
  std::ofstream{w.jobs / "metric/all.csv"} << "kind,blank,bath,at,mass\n"
                                              "weighed,NG7-32GX,,2027-05-03T13:00:00Z,128 g\n"
                                              "weighed,NG7-32GX,,2027-05-03T16:00:00Z,128 g\n"
                                              "into-bath,NG7-32GX,A,2027-05-03T16:10:00Z,\n"
                                              "vacuum-on,,A,2027-05-03T16:15:00Z,\n"
                                              "target-reached,,A,2027-05-03T16:20:00Z,\n"
                                              "bubbling-ended,,A,2027-05-03T17:00:00Z,\n"
                                              "released,,A,2027-05-03T17:20:00Z,\n"
                                              "drained,NG7-32GX,,2027-05-03T18:20:00Z,\n";
  const ProgramRun ran = w.run({"enter", "--csv", w.jobs / "metric/all.csv"});
  REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
  CHECK(ran.out.find("against its check") == std::string::npos);  // dry when it went in
  CHECK(ran.out.find("bath A: HOLD: its vacuum was held 1 h, and at least 6 h was planned") != std::string::npos);
  CHECK(ran.out.find("it soaked 1 h, and should have 2 h") != std::string::npos);
}

TEST_CASE("a scanner on an AZERTY machine is understood") {
  // Scan codes of a QWERTY keyboard as an AZERTY layout shows them: 3 is ", 2 is é, 7 is è, the full stop is a colon.
  Workshop w;
  const auto lines = w.bench("XKGB\nNGè\"éGX\n&\"&:à\n");
  REQUIRE(lines.size() == 3);
  CHECK(lines.at(1) == "OK NG7-32GX: mass in g?");
  CHECK(lines.at(2).starts_with("OK NG7-32GX weighed: mass 131.0 g"));
}

TEST_CASE(
    "the last entry is taken back, units and persons are announced, the impossible is overridden with a reason") {
  Workshop w;
  const auto lines = w.bench(
      "person Ada\nunit oz\nXKGB NG7-32GX 4.6\nundo\nunit stone\n"
      "into-oven L1 NG7-32GX\noverride impregnated elsewhere\noverride again\nend\nXKGB\n");
  REQUIRE(lines.size() == 9);  // nothing is answered after the end
  CHECK(lines.at(1) == "OK bare masses are in oz");
  CHECK(lines.at(2).starts_with("OK NG7-32GX weighed: mass 130.4 g"));
  CHECK(lines.at(3).starts_with("OK taken back: NG7-32GX weighed"));
  CHECK(is_refused(lines.at(4)));
  CHECK(is_refused(lines.at(5)));
  CHECK(lines.at(6).starts_with("NO went on against its check (dry)"));
  CHECK(lines.at(6).find("NG7-32GX into-oven: load L1 | entered all the same") != std::string::npos);
  CHECK(is_refused(lines.at(7)));
  CHECK(lines.at(8) == "OK 1 entered");
  const std::string history = w.run({"ask", "blank", "NG7-32GX"}).out;
  CHECK(history.find("overridden: impregnated elsewhere") != std::string::npos);
  CHECK(history.find("no, see 12") != std::string::npos);  // of the weighing that was taken back
}

TEST_CASE("a vacuum, a soak or a cure that is cut short is entered, and told") {
  // By the card: 6 h of vacuum, soak of twice that, core at 85 °C for an hour.
  Workshop w;
  const auto entered = [&](std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), "enter");
    const ProgramRun ran = w.run(std::move(arguments));
    CHECK(ran.exit == Exit::done);
    return ran.out;
  };
  const auto tells = [](const std::string& out, const char* words) { return out.find(words) != std::string::npos; };
  for (const char* blank : {"NG7-32GX", "JF2-T4JV"}) {
    static_cast<void>(entered({"into-bath", blank, blank == std::string{"NG7-32GX"} ? "bath=A" : "bath=B"}));
  }
  static_cast<void>(entered({"vacuum-on", "bath=A"}));
  CHECK(tells(entered({"released", "bath=A"}), "bath A: HOLD: nobody entered that it reached its vacuum"));
  static_cast<void>(entered({"vacuum-on", "bath=B"}));
  static_cast<void>(entered({"target-reached", "bath=B"}));
  w.hours(2);
  static_cast<void>(entered({"bubbling-ended", "bath=B"}));
  CHECK(tells(entered({"released", "bath=B"}), "its vacuum was held 2 h, and at least 6 h was planned"));
  w.hours(3);
  CHECK(tells(entered({"drained", "JF2-T4JV"}), "it soaked 3 h, and should have 4 h"));
  CHECK(w.bench("drained NG7-32GX\n").front().find("it soaked 5 h, and should have 12 h") != std::string::npos);
  static_cast<void>(entered({"into-oven", "NG7-32GX", "JF2-T4JV", "load=L"}));
  static_cast<void>(entered({"core-temperature", "load=L", "temperature=84 degC"}));
  CHECK(tells(entered({"out-of-oven", "JF2-T4JV"}), "HOLD: nothing shows that load L is cured"));
  CHECK(entered({"core-temperature", "load=L", "temperature=85.5 degC"}).find("HOLD") == std::string::npos);
  CHECK(tells(entered({"out-of-oven", "NG7-32GX"}), "(by its readings from 2027-05-03 20:00 on)"));
}

TEST_CASE("a whole bath goes through, with its gates, to cards and stock") {
  Workshop w;
  const std::vector<std::string> ids{"NG7-32GX", "JF2-T4JV"};
  for (const std::string& id : ids) {
    CHECK(w.run({"enter", "sawn", id, "board=B-12"}).exit == Exit::done);
    CHECK(w.run({"enter", "measured", id, "width=45 mm", "depth=45 mm", "length=125 mm"}).exit == Exit::done);
    CHECK(w.run({"enter", "weighed", id, "mass=131.1 g", "tare=3 g"}).exit == Exit::done);
  }
  w.hours(3);
  const ProgramRun dry = w.run({"enter", "weighed", "NG7-32GX", "JF2-T4JV", "mass=131.0 g", "tare=3 g"});
  CHECK(dry.out.find("NG7-32GX dry (0.08 % lost between two weighings, 0.08 % of moisture in all)") !=
        std::string::npos);

  CHECK(w.run({"enter", "resin-opened", "resin=R-1", "volume=4 l"}).exit == Exit::done);
  CHECK(w.run({"enter", "resin-activated", "resin=R-1", "volume=2 l"}).exit == Exit::done);
  CHECK(w.run({"enter", "poured", "bath=A", "resin=R-1", "volume=1.5 l"}).exit == Exit::done);
  CHECK(w.run({"enter", "into-bath", "NG7-32GX", "JF2-T4JV", "bath=A"}).exit == Exit::done);
  CHECK(w.run({"enter", "vacuum-on", "bath=A"}).exit == Exit::done);
  CHECK(w.run({"enter", "out-of-bath", "NG7-32GX"}).exit == Exit::mistakes);  // under vacuum
  w.hours(1);
  CHECK(w.run({"enter", "target-reached", "bath=A", "gauge=-95 kPa"}).exit == Exit::done);
  w.hours(6);
  CHECK(w.run({"enter", "bubbling-ended", "bath=A"}).exit == Exit::done);
  CHECK(w.run({"enter", "released", "bath=A"}).exit == Exit::done);
  w.hours(12);
  CHECK(w.run({"enter", "drained", "NG7-32GX", "JF2-T4JV"}).exit == Exit::done);
  const ProgramRun poor = w.run({"enter", "weighed", "NG7-32GX", "mass=170 g", "tare=3 g"});
  CHECK(poor.out.find("HOLD: soak again") != std::string::npos);
  const ProgramRun full = w.run({"enter", "weighed", "JF2-T4JV", "mass=270 g", "tare=3 g"});
  CHECK(full.out.find("cure it") != std::string::npos);

  CHECK(w.run({"enter", "into-oven", "JF2-T4JV", "load=L"}).out.find("against its check") == std::string::npos);
  w.hours(4);
  CHECK(w.run({"enter", "core-temperature", "load=L", "temperature=88 degC"}).exit == Exit::done);
  CHECK(w.run({"enter", "out-of-oven", "JF2-T4JV"}).exit == Exit::done);
  CHECK(w.run({"enter", "graded", "JF2-T4JV", "verdict=fill"}).out.find("HOLD: fill its voids first") !=
        std::string::npos);
  CHECK(w.run({"enter", "filled", "JF2-T4JV"}).exit == Exit::done);
  CHECK(w.run({"enter", "squared", "JF2-T4JV", "width=40 mm", "depth=40 mm", "length=120 mm"}).exit == Exit::done);
  // The sample's order wants a witness a bath; the other blank of this one is cut open and is found wanting.
  const auto witness = [&] { return w.run({"ask", "blank", "JF2-T4JV"}).out; };
  CHECK(witness().find("no witness of bath A was cut open yet") != std::string::npos);
  CHECK(w.run({"enter", "into-oven", "NG7-32GX", "load=L-2"}).exit == Exit::done);
  CHECK(w.run({"enter", "out-of-oven", "NG7-32GX"}).exit == Exit::done);
  CHECK(w.run({"enter", "witness-cut", "NG7-32GX", "filled=no", "hard=yes", "reason=dry in the middle"}).exit ==
        Exit::done);
  CHECK(witness().find(
            "HOLD: in NG7-32GX, the witness of bath A, the resin did not reach the middle: dry in the middle") !=
        std::string::npos);
  const ProgramRun off = w.run({"enter", "bored", "JF2-T4JV", "face_1=12 mm", "face_2=20 mm", "face_3=28 mm",
                                "face_4=20 mm", "lean_1=0 mm", "lean_2=0 mm", "over=100 mm"});
  CHECK(off.out.find("HOLD: the form lies") != std::string::npos);
  CHECK(off.out.find("it fits no order that lacks pieces") != std::string::npos);
  CHECK(w.run({"ask", "blank", "JF2-T4JV"}).out.find("towards face 1: -") != std::string::npos);

  const std::string bath = w.run({"ask", "bath", "A"}).out;
  CHECK(bath.find(" 95.0 kPa") != std::string::npos);
  CHECK(bath.find("1.50 l of resin R-1") != std::string::npos);
  CHECK(w.run({"ask", "resin", "R-1"}).out.find("JF2-T4JV") != std::string::npos);
  CHECK(w.run({"ask", "load", "L"}).out.find("88 °C") != std::string::npos);
  CHECK(w.run({"ask", "board", "B-12"}).out.find("NG7-32GX") != std::string::npos);
  CHECK(w.run({"ask", "order", "TA-0147"}).out.find("8 to be sawn, 1 bored, 1 cut open") != std::string::npos);
}

TEST_CASE("a table is entered whole or not at all") {
  Workshop w;
  const std::string table = w.jobs / "metric/weighed.csv";
  const auto enter = [&](const std::string& text) {
    std::ofstream{table, std::ios::binary} << text;
    return w.run({"enter", "--csv", table});
  };
  const ProgramRun bad = enter("kind,blank,mass\nweighed,NG7-32GX,131 g\nsent,JF2-T4JV,\nweighed,K7T-4X54,1 g\n");
  CHECK(bad.exit == Exit::mistakes);
  CHECK(bad.errors.find("line 3: JF2-T4JV has no stud") != std::string::npos);
  CHECK(bad.errors.find("line 4: the register has no blank K7T-4X54") != std::string::npos);
  CHECK(w.run({"ask", "blank", "NG7-32GX"}).out.find("mass") == std::string::npos);
  CHECK(enter("kind,blank,mass\nweighed,NG7-32GX,131 g\n").exit == Exit::done);
  CHECK(w.run({"enter", "--csv", table + "x"}).exit == Exit::mistakes);
}

TEST_CASE("answers come as a table, as CSV that is no formula, and as JSON") {
  Workshop w;
  CHECK(w.run({"enter", "scrapped", "NG7-32GX", "reason==HYPERLINK(\"x\")"}).exit == Exit::done);
  const ProgramRun csv = w.run({"ask", "yield", "--as", "csv"});
  CHECK(csv.out.starts_with("reason of loss,blanks\r\n"));
  const ProgramRun json = w.run({"ask", "order", "TA-0147", "--as", "json"});
  const auto parsed = nlohmann::json::parse(json.out);
  CHECK(parsed.at("facts").at("pieces wanted") == "6");
  CHECK(parsed.at("rows").size() == 10);
  CHECK(parsed.at("rows").at(0).at("stage") == "scrapped");
  CHECK(w.run({"ask", "blank"}).exit == Exit::command_line);
  CHECK(w.run({"ask", "yield", "x"}).exit == Exit::command_line);
  CHECK(w.run({"ask", "weather"}).exit == Exit::command_line);
  CHECK(w.run({"ask", "blank", "K7T-4X54"}).errors == "blankwright: the register has no blank K7T-4X54\n");
  CHECK(w.run({"ask", "bath", "Z"}).exit == Exit::mistakes);
}

TEST_CASE("a register goes through export and import unchanged") {
  Workshop w;
  CHECK(w.run({"enter", "weighed", "NG7-32GX", "mass=131.1 g", "remark=a, \"b\""}).exit == Exit::done);
  const std::string file = w.jobs / "metric/all.jsonl";
  CHECK(w.run({"export", file}).out == file + ": 1 order, 11 entries\n");
  const std::string before = w.run({"ask", "blank", "NG7-32GX"}).out;
  const std::string reg = w.jobs / "metric/shop.register";
  CHECK(w.run({"import", file}).exit == Exit::world);  // this one is not empty
  const std::string daybook = w.run({"ask", "daybook"}).out;
  REQUIRE(daybook.find("weighed") != std::string::npos);
  w.hours(48);
  std::filesystem::remove(reg);
  CHECK(w.run({"import", file}).out == "1 order and 11 entries taken over\n");
  CHECK(w.run({"ask", "daybook", "--at", "2027-05-03"}).out == daybook);
  CHECK(w.run({"ask", "daybook"}).out.find("weighed") == std::string::npos);
  CHECK(w.run({"export", file + "2"}).exit == Exit::done);
  CHECK(bytes_of(file + "2") == bytes_of(file));
  w.hours(-48);
  CHECK(w.run({"ask", "blank", "NG7-32GX"}).out == before);
}

TEST_CASE("an export that was cut is not taken over, and one of before is with a word") {
  Workshop w;
  const std::string file = w.jobs / "metric/all.jsonl";
  REQUIRE(w.run({"export", file}).exit == Exit::done);
  const std::string reg = w.jobs / "metric/shop.register";
  std::filesystem::remove(reg);
  const std::string text = bytes_of(file);
  for (const std::size_t kept : {text.find('\n') + 1, text.rfind('\n', text.size() - 2) + 1}) {
    std::ofstream{file, std::ios::binary} << text.substr(0, kept);
    const ProgramRun cut = w.run({"import", file});
    CHECK(cut.exit == Exit::mistakes);
    CHECK(cut.errors == "blankwright: " + file + ": it is not whole: its end line is missing; take another copy\n");
    CHECK_FALSE(std::filesystem::exists(reg));
  }
  const std::string old = std::string{BLANKWRIGHT_SOURCE_DIR} + "/tests/register/formats/export-1.jsonl";
  const ProgramRun run = w.run({"import", old});
  CHECK(run.errors ==
        "blankwright: " + old +
            ": an earlier version wrote it without an end line, so nothing shows whether it is whole\n");
  CHECK(run.out == "2 orders and 30 entries taken over\n");
}

TEST_CASE("blanks that were scrapped are started again by the next compile, and the plan counts what came out good") {
  Workshop w;
  for (const std::string id : {"NG7-32GX", "JF2-T4JV", "SG8-CRCT", "8CC-F3G3"}) {
    CHECK(w.run({"enter", "scrapped", id, "reason=rot"}).exit == Exit::done);
  }
  const ProgramRun again =
      run_program({"compile", "--only", "plan", "--out", w.jobs.out(), w.jobs / "metric/burnisher.toml"}, w.now);
  CHECK(again.exit == Exit::done);
  // Of the ten six are left to be bathed, and five are new: ten in the bath, none of them scrapped.
  const auto plan = nlohmann::json::parse(bytes_of(w.jobs.out() + "/TA-0147/plan.json"));
  std::size_t bathed = 0;
  for (const auto& bath : plan.at("baths")) bathed += bath.at("blanks").size();
  CHECK(bathed == 10);
  CHECK(plan.at("baths").dump().find("NG7-32GX") == std::string::npos);
  // Ten were issued, nine pieces and a witness, which stays the only one: what is left fits into one bath.
  CHECK(again.out.find("TA-0147: 14 blanks for 6") != std::string::npos);
  const auto blanks = plan.at("blanks");
  CHECK(blanks.at(13).at("id") == "NXX-C6F6");
  CHECK(run_program({"compile", "--only", "plan", "--out", w.jobs.out(), w.jobs / "metric/burnisher.toml"}, w.now)
            .out.find("TA-0147: 14 blanks for 6") != std::string::npos);  // and no more by compiling again
}
