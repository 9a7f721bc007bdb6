// An order that changes while its blanks are under way. Through the program.

#include <doctest/doctest.h>
#include <fstream>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <iterator>

#include "bench_of_work.h"
#include "register/register.h"

using namespace blankwright;

namespace {

/// The metric sample at work, whose job file is changed.
struct ChangedOrder : BenchOfWork {
  std::string job = jobs / "metric/burnisher.toml";
  std::string a = blanks.at(0), b = blanks.at(1);

  void change(const std::string& from, const std::string& to) const {
    std::ifstream in{job};
    std::string text{std::istreambuf_iterator<char>{in}, {}};
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    std::ofstream{job} << text.replace(at, from.size(), to);
  }
  ProgramRun compile(double hours, std::vector<std::string> flags = {}) const {
    std::vector<std::string> arguments{"compile", "--only", "plan", "--out", jobs.out(), job};
    arguments.insert(arguments.end(), flags.begin(), flags.end());
    ProgramRun ran = run_program(std::move(arguments), moment(hours));
    CHECK_MESSAGE(ran.exit == Exit::done, ran.errors);
    return ran;
  }
  nlohmann::json plan() const {
    std::ifstream file{jobs.out() + "/TA-0147/plan.json"};
    return nlohmann::json::parse(file);
  }
  int pieces() const { return plan().at("start_count").at("pieces"); }
  std::vector<std::string> ids() const {
    std::vector<std::string> out;
    const auto made = plan();
    for (const auto& blank : made.at("blanks")) out.push_back(blank.at("id"));
    return out;
  }
};

}  // namespace

TEST_CASE("blanks that were sawn for a smaller form are named, and others are started only when that is asked for") {
  const ChangedOrder w;
  for (const std::string& id : {w.a, w.b}) w.enter(-10, {"sawn", id, "board=T4"});
  CHECK_FALSE(has(w.compile(0).errors, "blanks-do-not-fit"));
  const int before = w.pieces();
  w.change("diameter = \"34 mm\"", "diameter = \"44 mm\"");
  const ProgramRun changed = w.compile(1);
  CAPTURE(changed.errors);
  CHECK(has(changed.errors, "of the blanks that were begun 2 do not fit the order as it is now: " + w.a +
                                " (too small), " + w.b + " (too small)"));
  CHECK(w.ids() == w.blanks);  // a mistyped diameter starts no wood
  w.compile(2, {"--replace"});
  CHECK(w.pieces() == before + 2);
  // What was started for them is not taken for surplus by the next compile.
  CHECK_FALSE(has(w.compile(2.5).errors, "ids-not-needed"));
  CHECK(w.pieces() == before + 2);
  w.change("diameter = \"44 mm\"", "diameter = \"34 mm\"");
  CHECK_FALSE(has(w.compile(3).errors, "blanks-do-not-fit"));
}

TEST_CASE("what was scrapped since its order was changed is no loss of the process") {
  const ChangedOrder w;
  const auto yield = [&](double hours) {
    return nlohmann::json::parse(w.run(hours, {"ask", "yield", "--as", "json"}).out).at("facts");
  };
  const std::string c = w.blanks.at(2);
  for (const std::string& id : {w.a, w.b, c}) w.enter(-10, {"sawn", id, "board=T4"});
  w.enter(-1, {"scrapped", c, "reason=crack"});  // before the change, and it fitted
  w.change("diameter = \"34 mm\"", "diameter = \"44 mm\"");
  w.compile(1, {"--replace"});
  CHECK(yield(2).at("lost") == "1");
  w.enter(3, {"scrapped", w.a, w.b, "reason=too small now"});
  CHECK(yield(4).at("lost") == "1");
  CHECK(yield(4).at("left out") == "2 blanks scrapped since the order was changed: no loss of the process");
  // Nor in what a plan counts, once the order is through: all others are scrapped for what is wrong with themselves.
  w.compile(5);
  int rotten = 0, witnesses = 0;
  const auto made = w.plan();
  for (const auto& blank : made.at("blanks")) {
    const std::string id = blank.at("id");
    if (id == w.a || id == w.b || id == c) continue;
    w.enter(6, {"scrapped", id, "reason=rot", "--override", "so it was"});
    ++(blank.at("witness").get<bool>() ? witnesses : rotten);
  }
  CHECK(yield(7).at("lost") == std::to_string(rotten + witnesses + 1));
  CHECK(yield(7).at("counted in plans") == "0 good, " + std::to_string(rotten + 1) + " lost");
}

TEST_CASE("what was measured counts before what was planned, as long as it leaves room for an axis") {
  const ChangedOrder w;
  std::ifstream file{w.jobs.out() + "/TA-0147/plan.json"};
  const double dry = nlohmann::json::parse(file).at("blank").at("dry_section_mm");
  const auto size = [&](double less) { return fmt::format("{:.1f} mm", dry - less); };
  w.enter(-10, {"sawn", w.a, "board=T4"});
  w.enter(-9, {"measured", w.a, "width=" + size(0.3), "depth=" + size(0)});
  CHECK(has(w.ask(0, w.a), "TA-0147: fits if bored within Ø "));
  CHECK_FALSE(has(w.compile(0).errors, "blanks-do-not-fit"));
  w.enter(1, {"measured", w.a, "width=" + size(9), "depth=" + size(0)});
  CHECK(has(w.compile(2).errors, "one does not fit the order as it is now: " + w.a + " (too small)"));
}

TEST_CASE("another bore after boring is told of each blank that has its bore") {
  const ChangedOrder w;
  w.bathe({w.a});
  w.enter(24, {"into-oven", w.a, "load=O2"});
  w.enter(25.5, {"core-temperature", "load=O2", "temperature=86 °C"});
  w.enter(27, {"out-of-oven", w.a});
  std::ifstream file{w.jobs.out() + "/TA-0147/plan.json"};
  const auto blank = nlohmann::json::parse(file).at("blank");
  const double side = blank.at("squared_section_mm"), length = blank.at("squared_length_mm");
  const auto mm = [](const std::string& field, double size) { return fmt::format("{}={:.2f} mm", field, size); };
  w.enter(28, {"squared", w.a, mm("width", side), mm("depth", side), mm("length", length)});
  w.enter(29, {"bored", w.a, mm("face_1", side / 2), mm("face_2", side / 2), mm("face_3", side / 2),
               mm("face_4", side / 2), "lean_1=0 mm", "lean_2=0 mm", "over=100 mm"});
  CHECK_FALSE(has(w.compile(30).errors, "blanks-do-not-fit"));
  w.change("fit = \"glued\"", "fit = \"glued\"\ndrill = \"9 mm\"");
  const ProgramRun changed = w.compile(31);
  CAPTURE(changed.errors);
  CHECK(has(changed.errors, w.a + " (another bore)"));
}

TEST_CASE("a blank that was bathed before its order's form changed is judged by the size that it had") {
  const ChangedOrder w;
  w.bathe({w.a});
  const auto resin = [&](double hours) {
    const std::string told = w.ask(hours, w.a);
    const auto from = told.find("check: resin");
    REQUIRE(from != std::string::npos);
    return told.substr(from, told.find('\n', from) - from);
  };
  const std::string before = resin(24);
  CHECK(has(before, "cure it"));
  w.change("diameter = \"34 mm\"", "diameter = \"44 mm\"");  // it would have room for twice as much resin
  w.compile(25);
  CHECK(resin(26) == before);
  // In the oven its middle is warm when one of its own size is.
  w.enter(27, {"into-oven", w.a, "load=O2"});
  for (const double hours : {27.0, 27.5}) w.enter(hours, {"oven-temperature", "load=O2", "temperature=93 °C"});
  const auto cure = [&] {
    const std::string told = w.ask(28, w.a);
    return told.substr(told.find("check: cure"), 120);
  };
  const std::string changed = cure();
  w.change("diameter = \"44 mm\"", "diameter = \"34 mm\"");
  w.compile(27.9);
  CHECK(cure() == changed);
}

TEST_CASE("a blank whose print cannot be planned any more is named as not known") {
  const ChangedOrder w;
  {
    // As a program of before, which asked for less, may have printed it.
    Register known{w.jobs / "metric/shop.register"};
    const std::vector unread{OrderToIssue{"TA-0147", 0, {"format = 1\n", "format = 1\n", "", "0.1.0"}, {}}};
    REQUIRE(known.issue(unread, w.moment(-20), Instant{std::chrono::seconds{w.moment(-20)}}).has_value());
  }
  w.enter(-10, {"sawn", w.a, "board=T4"});
  const ProgramRun ran = w.compile(0, {"--replace"});
  CHECK(has(ran.errors,
            "whether they fit is not known, since what was printed when they were begun cannot be planned "
            "any more: " +
                w.a));
  CHECK(w.ids() == w.blanks);
}

TEST_CASE("IDs whose place others have taken are named, with what withdraws them") {
  const ChangedOrder w;
  w.change("quantity = 6", "quantity = 4");
  const ProgramRun fewer = w.compile(1);
  CAPTURE(fewer.errors);
  const std::string command = "blankwright enter withdrawn ";
  const auto at = fewer.errors.find(command);
  REQUIRE(at != std::string::npos);
  std::istringstream named{fewer.errors.substr(at + command.size())};
  std::vector<std::string> ids{"withdrawn"};
  for (std::string id; named >> id && id.size() == w.a.size();) ids.push_back(id);
  REQUIRE(ids.size() > 1);
  w.enter(2, ids);
  CHECK_FALSE(has(w.compile(3).errors, "ids-not-needed"));
  CHECK(w.ids().size() == w.blanks.size() - (ids.size() - 1));
}
