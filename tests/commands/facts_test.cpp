// Facts that could not be entered before: what is dried where, glued when, done without an entry of its own, and IDs
// that are not needed. Through the program.

#include <doctest/doctest.h>
#include <fstream>
#include <nlohmann/json.hpp>

#include "bench_of_work.h"

using namespace blankwright;

TEST_CASE("wood that is in the oven to dry is known to be there, and draws no moisture") {
  const BenchOfWork w;
  const std::string& id = w.blanks.at(0);
  w.enter(0, {"weighed", id, w.grams(w.dry_g)});
  w.enter(0.1, {"into-drying", id, "load=D1"});
  CHECK(has(w.ask(1, id), "oven, to dry, load D1"));
  w.enter(10, {"weighed", id, w.grams(w.dry_g)});  // taken out for the scale alone
  w.enter(12, {"out-of-drying", id});
  CHECK_FALSE(has(w.ask(15, id), "to dry"));
  CHECK_FALSE(has(w.ask(14.1, id), "HOLD"));
  CHECK(has(w.ask(100, id), "HOLD: it lay open"));
  // The load dried wood, and does not cure resin beside it.
  const ProgramRun cured = w.run(13, {"enter", "into-oven", w.blanks.at(1), "load=D1"});
  CHECK(cured.exit == Exit::mistakes);
}

TEST_CASE("a load dries or cures, and not both") {
  const BenchOfWork w;
  w.bathe({w.blanks.at(0)});
  w.enter(24, {"into-oven", w.blanks.at(0), "load=O2"});
  const ProgramRun dried = w.run(24.5, {"enter", "into-drying", w.blanks.at(1), "load=O2"});
  CHECK(dried.exit == Exit::mistakes);
  CHECK(has(dried.errors, "load O2 cures resin; a load that dries has a name of its own"));
  w.enter(24.5, {"into-drying", w.blanks.at(1), "load=D1"});
  w.enter(27, {"out-of-oven", w.blanks.at(0)});
}

TEST_CASE("a stud is left alone until its glue has set") {
  const BenchOfWork w;
  const std::string& id = w.blanks.at(0);
  const std::vector<std::string> axis{"face_1=20.5 mm", "face_2=20.5 mm", "face_3=20.5 mm", "face_4=20.5 mm",
                                      "lean_1=0 mm",    "lean_2=0 mm",    "over=100 mm"};
  w.bathe({id});
  w.enter(24, {"into-oven", id, "load=O2"});
  w.enter(25.5, {"core-temperature", "load=O2", "temperature=86 °C"});
  w.enter(27, {"out-of-oven", id});
  w.enter(28, {"squared", id, "width=41 mm", "depth=41 mm", "length=120 mm"});
  std::vector<std::string> bored{"bored", id};
  bored.insert(bored.end(), axis.begin(), axis.end());
  w.enter(29, bored);
  w.enter(30, {"glued", id});
  CHECK(has(w.ask(31, id), "its glue sets until 2027-05-05 20:00"));  // the shop's 24 h, there
  CHECK_FALSE(has(w.ask(54.1, id), "its glue sets"));
  CHECK(has(w.enter(31, {"turned", id}), "went on against its check (glue): its glue sets until"));
}

TEST_CASE("an operation that no entry of its own ends is entered as done, by its name or how that begins") {
  const BenchOfWork w;
  const std::string& id = w.blanks.at(0);
  CHECK(has(w.enter(1, {"done", id, "operation=stamp"}), "operation Stamp and tag, check the moisture"));
  CHECK(has(w.ask(2, id), "operation Stamp and tag, check the moisture"));
  const ProgramRun unknown = w.run(2, {"enter", "done", id, "operation=Stmap"});
  CHECK(unknown.exit == Exit::mistakes);
  CHECK(has(unknown.errors, "the shop's routing has no \"Stmap\"; perhaps Stamp and tag, check the moisture"));
  CHECK(has(w.run(2, {"bench"}, "done\nstamp\n" + w.blanks.at(1) + "\n").out,
            "operation Stamp and tag, check the moisture"));
}

TEST_CASE("an ID that was never sawn can be withdrawn, and is then nobody's") {
  const BenchOfWork w;
  const std::string& id = w.blanks.at(3);
  w.enter(1, {"sawn", w.blanks.at(4), "board=T4"});
  const ProgramRun begun = w.run(1, {"enter", "withdrawn", w.blanks.at(4)});
  CHECK(begun.exit == Exit::mistakes);
  CHECK(has(begun.errors, "was begun already"));
  w.enter(2, {"withdrawn", id});
  CHECK(has(w.ask(3, id), "withdrawn"));
  CHECK(w.run(3, {"enter", "sawn", id, "board=T4"}).exit == Exit::mistakes);
  // What an order needs is made up by a new ID at its next compile, and the withdrawn one stands on no sheet.
  const auto compiled =
      w.run(4, {"compile", "--only", "plan", "--out", w.jobs.out(), w.jobs / "metric/burnisher.toml"});
  REQUIRE_MESSAGE(compiled.exit == Exit::done, compiled.errors);
  std::ifstream file{w.jobs.out() + "/TA-0147/plan.json"};
  const auto plan = nlohmann::json::parse(file);
  std::vector<std::string> now;
  for (const auto& blank : plan.at("blanks")) now.push_back(blank.at("id"));
  CHECK(now.size() == w.blanks.size());
  CHECK(std::ranges::find(now, id) == now.end());
}

TEST_CASE("work that was done before the order's first compile is entered with its time") {
  const BenchOfWork w;  // compiled a day before noon of 3 May
  const std::string& id = w.blanks.at(0);
  const auto enter_at = [&](std::vector<std::string> words, const std::string& at) {
    words.insert(words.begin(), "enter");
    words.insert(words.end(), {"--at", at});
    return w.run(0, std::move(words));
  };
  CHECK(enter_at({"sawn", id, "board=T4"}, "2027-04-28T10:00:00+02:00").exit == Exit::done);
  CHECK(enter_at({"moisture", id, "moisture=9 %"}, "2027-04-29T10:00:00+02:00").exit == Exit::done);
  // Whatever the order in which it is entered.
  CHECK(enter_at({"sealed", id}, "2027-04-28T11:00:00+02:00").exit == Exit::done);
  const std::string history = w.ask(0, id);
  CHECK(history.find("sealed") < history.find("moisture        moisture 9 %"));
}

TEST_CASE("what contradicts what is known is entered, and questioned in a line with what would go with it") {
  const BenchOfWork w;
  const std::string& id = w.blanks.at(0);
  const auto odd = [&](double hours, std::vector<std::string> words, const std::string& told) {
    const std::string said = w.enter(hours, std::move(words));
    CAPTURE(said);
    CHECK(has(said, "CHECK: " + told));
  };
  const auto plain = [&](double hours, std::vector<std::string> words) {
    const std::string said = w.enter(hours, std::move(words));
    CAPTURE(said);
    CHECK_FALSE(has(said, "CHECK"));
  };
  plain(0, {"sawn", id, "board=T4"});
  odd(0.1, {"sawn", id, "board=T5"}, "it was sawn before, from board T4; is it another blank?");
  odd(0.2, {"measured", id, "width=4.19 mm", "depth=44 mm"}, "width is 4.19 mm, and ");
  plain(0.3, {"measured", id, "width=44 mm", "depth=44 mm"});
  odd(0.4, {"measured", id, "width=54 mm", "depth=44 mm"}, "width is 54.00 mm, and was 44.00 mm before");
  CHECK(has(w.enter(0.4, {"weighed", w.blanks.at(2), w.blanks.at(3), w.grams(w.dry_g)}),
            "CHECK: 2 blanks were entered with the same figures; was each weighed?"));
  CHECK(has(w.enter(0.4, {"measured", w.blanks.at(2), w.blanks.at(3), "width=44 mm", "depth=44 mm"}),
            "CHECK: 2 blanks were entered with the same figures; was each measured?"));
  odd(0.5, {"weighed", id, "mass=1844 g"}, "1844.0 g, and about ");
  plain(0.6, {"weighed", w.blanks.at(1), w.grams(w.dry_g)});
  odd(3, {"weighed", w.blanks.at(1), w.grams(1.3 * w.dry_g)}, "");
  plain(4, {"weighed", w.blanks.at(1), w.grams(1.3 * w.dry_g)});
  w.enter(5, {"into-bath", w.blanks.at(1), "bath=K2"});
  w.enter(5.1, {"vacuum-on", "bath=K2"});
  odd(5.2, {"target-reached", "bath=K2", "gauge=70 kPa"}, "the gauge reads 70.0 kPa, and ");
  w.enter(12, {"bubbling-ended", "bath=K2"});
  w.enter(12.1, {"released", "bath=K2"});
  odd(25, {"drained", w.blanks.at(1)}, "nobody entered that it came out of bath K2");
  odd(25.1, {"drained", w.blanks.at(1)}, "it was drained before");
  w.enter(25.2, {"into-oven", w.blanks.at(1), "load=O2"});
  odd(26, {"core-temperature", "load=O2", "temperature=200 °C"}, "200 °C, and the air is to have ");
  plain(26.1, {"core-temperature", "load=O2", "temperature=86 °C"});
  w.enter(28, {"out-of-oven", w.blanks.at(1)});
  odd(29, {"squared", w.blanks.at(1), "width=419 mm", "depth=41 mm"}, "width is 419.00 mm, and ");
  // Blanks that are squared to one stop are equal.
  CHECK_FALSE(has(w.enter(29.5, {"squared", w.blanks.at(4), w.blanks.at(5), "width=41 mm", "depth=41 mm",
                                 "--override", "squared elsewhere"}),
                  "same figures"));
  const std::string at_bench = w.run(30, {"bench"}, "squared\n" + w.blanks.at(1) + "\n4.19\n41\n").out;
  CAPTURE(at_bench);
  CHECK(has(at_bench, " | CHECK: width is 4.19 mm, and "));
}
