#include <doctest/doctest.h>

#include "bench_of_work.h"

using namespace blankwright;

TEST_CASE("compile tells in an order's line how its blanks stand, once something was entered of them") {
  const BenchOfWork w;
  const auto line = [&](const char* compile) {
    const ProgramRun ran =
        w.run(40, {compile, "--only", "plan", "--out", w.jobs.out(), w.jobs / "metric/burnisher.toml"});
    REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
    return ran.out.substr(0, ran.out.find('\n'));
  };
  CHECK(has(line("compile"), "TA-0147: 10 blanks for 6, sawn "));
  w.enter(1, {"sawn", w.blanks.at(0), "board=B-1"});
  w.enter(1, {"scrapped", w.blanks.at(1), "reason=rot"});
  w.enter(1, {"sent", w.blanks.at(2), "--override", "made before the register"});
  const std::string begun = line("compile");
  // Of the ten one is scrapped, and another one is started for it.
  CHECK_MESSAGE(has(begun, "TA-0147: 11 blanks for 6: 1 good (1 sent), 1 lost, 1 in work, 8 to be sawn; sawn "),
                begun);
  CHECK(line("compile") == begun);
}
