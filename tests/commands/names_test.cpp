#include <doctest/doctest.h>

#include "bench_of_work.h"
#include "workshop.h"

using namespace blankwright;

TEST_CASE("a bath or a load that nothing began is refused with the name that is near") {
  const BenchOfWork w;
  const auto refusal = [&](std::vector<std::string> words) {
    words.insert(words.begin(), "enter");
    const ProgramRun ran = w.run(5, std::move(words));
    CHECK(ran.exit == Exit::mistakes);
    return ran.errors;
  };
  const std::string first = w.enter(3, {"into-bath", w.blanks.at(0), w.blanks.at(1), "bath=B3"});
  CHECK(has(first, "  bath B3: new\n"));
  CHECK(first.find("new") == first.rfind("new"));  // told once
  CHECK_FALSE(has(w.enter(3, {"into-bath", w.blanks.at(2), "bath=B3"}), "new"));
  CHECK(has(w.enter(3, {"into-bath", w.blanks.at(3), "bath=B4"}), "  bath B4: new\n"));
  CHECK(has(refusal({"vacuum-on", "bath=B3x"}), "the register has no bath B3x; did you mean B3 or B4?\n"));
  CHECK(has(refusal({"vacuum-on", "bath=B3x", "--override", "it is so"}), "no bath B3x"));
  CHECK(has(refusal({"released", "bath=cellar"}), "the register has no bath cellar\n"));
  CHECK(has(refusal({"core-temperature", "load=O11", "temperature=80 °C"}), "the register has no load O11\n"));
  w.enter(5, {"vacuum-on", "bath=B3"});

  w.enter(6, {"released", "bath=B3"});
  w.enter(20, {"drained", w.blanks.at(0)});
  CHECK(has(w.enter(21, {"into-oven", w.blanks.at(0), "load=O1"}), "  load O1: new\n"));
  const ProgramRun reading = w.run(22, {"enter", "core-temperature", "load=O11", "temperature=80 °C"});
  CHECK(has(reading.errors, "the register has no load O11; did you mean O1?\n"));
  // A name that was taken back is none.
  const ProgramRun wrong = w.run(22, {"enter", "into-bath", w.blanks.at(4), "bath=B5x"});
  const std::string number = wrong.out.substr(6, wrong.out.find(':') - 6);
  w.enter(22, {"corrected", "--replaces", number, "reason=mistyped"});
  CHECK_FALSE(has(w.run(22, {"enter", "vacuum-on", "bath=B5"}).errors, "B5x"));
}

TEST_CASE("the bench refuses a bath that nothing began, and tells of one that is new") {
  Workshop w;
  const auto lines = w.bench("into-bath B3 NG7-32GX\nJF2-T4JV\nvacuum-on B33\nvacuum-on B3\n");
  CHECK(lines.at(0).find("NG7-32GX into-bath: bath B3") != std::string::npos);
  CHECK(lines.at(0).find(" | bath B3: new") != std::string::npos);
  CHECK(lines.at(1).find("new") == std::string::npos);
  CHECK(lines.at(2).starts_with("NO the register has no bath B33; did you mean B3?"));
  CHECK(lines.at(3).find("vacuum-on: bath B3") != std::string::npos);
}

TEST_CASE("an ID that is mistyped is no name of a bath, a load or a board") {
  Workshop w;
  // NG7-32GX with one symbol wrong or two exchanged, which the check symbol shows (see blank_id.h).
  for (const std::string mistyped : {"NG7-32GS", "NG732XG", "ng7-23gx"}) {
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"into-bath", "NG7-32GX", "bath=" + mistyped},
          {"into-oven", "NG7-32GX", "load=" + mistyped},
          {"sawn", "NG7-32GX", "board=" + mistyped}}) {
      CAPTURE(words.back());
      std::vector<std::string> arguments{"enter"};
      arguments.insert(arguments.end(), words.begin(), words.end());
      const ProgramRun ran = w.run(arguments);
      CHECK(ran.exit == Exit::mistakes);
      CHECK(ran.errors.find(mistyped + " looks like a blank's ID that is mistyped") != std::string::npos);
    }
  }
  CHECK(w.run({"enter", "sawn", "NG7-32GX", "board=beech-7"}).exit == Exit::done);
  // A lot of resin is called what its maker calls it.
  CHECK(w.run({"enter", "resin-opened", "resin=2403117"}).exit == Exit::done);
}
