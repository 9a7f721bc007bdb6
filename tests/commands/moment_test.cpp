#include <doctest/doctest.h>

#include <fstream>

#include "bench_of_work.h"

using namespace blankwright;

TEST_CASE("when something happened is said by weekday and clock, at the terminal and in a table") {
  const BenchOfWork w;  // compiled on Sunday, 2 May 2027, 14:00 in Vienna
  CHECK(has(w.enter(0, {"weighed", w.blanks.at(0), "mass=131 g", "--at", "Sunday 16:30"}),
            ", of 2027-05-02 16:30: " + w.blanks.at(0) + " weighed"));
  CHECK(has(w.enter(0, {"weighed", w.blanks.at(0), "mass=131 g", "--at", "8:15"}), ", of 2027-05-03 08:15: "));
  CHECK_FALSE(has(w.enter(0, {"weighed", w.blanks.at(0), "mass=131 g"}), ", of "));
  const std::string table = w.jobs / "metric/weighed.csv";
  std::ofstream{table} << "kind,blank,mass,at\nweighed," << w.blanks.at(1) << ",131 g,sun 17:00\n";
  w.enter(1, {"--csv", table});
  CHECK(has(w.ask(1, w.blanks.at(1)), "2027-05-02 17:00"));

  const ProgramRun later = w.run(0, {"enter", "weighed", w.blanks.at(0), "mass=131 g", "--at", "18:00"});
  CHECK(has(later.errors, "its time lies in the future"));
  const ProgramRun twice = w.run(0, {"enter", "weighed", w.blanks.at(0), "mass=131 g", "--at", "2026-10-25 2:30"});
  CHECK(twice.exit == Exit::command_line);
  CHECK(has(twice.errors, "write 2026-10-25T02:30:00+02:00 or 2026-10-25T02:30:00+01:00\n"));
  std::ofstream{table} << "kind,blank,mass,at\nweighed," << w.blanks.at(1) << ",131 g,satday 17:00\n";
  const ProgramRun mistyped = w.run(0, {"enter", "--csv", table});
  CHECK(has(mistyped.errors, "line 2: at: \"satday 17:00\" is no moment; write \"saturday 17:00\"\n"));
}

TEST_CASE("a plan begins at a moment that is named by the shop's clock, from now on") {
  SampleJobs jobs;
  const auto planned = [&](const std::string& at) {
    const ProgramRun ran = run_program({"compile", "--quiet", "--draft", "--only", "plan,calendar", "--at", at,
                                        "--out", jobs.out(), jobs / "metric/burnisher.toml"});
    REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
    return bytes_of(jobs.out() + "/TA-0147/plan.json") + bytes_of(jobs.out() + "/TA-0147/schedule.ics");
  };
  const std::string wednesday = planned("2027-05-05T08:00:00+02:00");
  CHECK(planned("wed 8:00") == wednesday);
  CHECK(planned("2027-05-05 08:00") == wednesday);
  CHECK(planned("2027-05-05T06:00:00Z") == wednesday);
  CHECK(planned("wednesday") == planned("2027-05-05T00:00:00+02:00"));
  const ProgramRun never = run_program({"compile", "--draft", "--at", "soon", jobs / "metric/burnisher.toml"});
  CHECK(never.exit == Exit::command_line);
  CHECK(has(never.errors, "--at: \"soon\" is no moment; write "));
}
