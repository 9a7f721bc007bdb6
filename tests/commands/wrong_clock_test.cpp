#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "workshop.h"

using namespace blankwright;

namespace {

constexpr std::int64_t in_2039 = 2'177'452'800;  // date -u -d 2039-01-01 +%s
constexpr std::int64_t at_zero = 0;              // a clock whose battery is empty

}  // namespace

TEST_CASE("nothing is written while the machine's clock is out of the question") {
  for (const std::int64_t clock : {in_2039, at_zero}) {
    CAPTURE(clock);
    Workshop w;
    const std::string reg = w.jobs / "metric/shop.register";
    const std::string all = w.jobs / "metric/all.jsonl";
    REQUIRE(w.run({"export", all}).exit == Exit::done);
    const std::string before = bytes_of(reg);
    w.now = clock;
    const auto refused = [&](const ProgramRun& run) {
      CHECK(run.exit == Exit::world);
      CHECK(run.errors.find("nothing is entered while this machine's clock says " +
                            std::string{clock == 0 ? "1970-01-01 00:00" : "2039-01-01 00:00"} + ": set the clock") !=
            std::string::npos);
      CHECK(bytes_of(reg) == before);
    };
    refused(w.run({"enter", "weighed", "NG7-32GX", "mass=131 g"}));
    refused(w.run({"enter", "weighed", "NG7-32GX", "mass=131 g", "--override", "so"}));
    std::ofstream{w.jobs / "metric/t.csv"} << "kind,blank,mass\nweighed,NG7-32GX,131 g\n";
    refused(w.run({"enter", "--csv", w.jobs / "metric/t.csv"}));
    refused(w.run({"bench"}, "weighed\nNG7-32GX 131\n"));
    refused(run_program({"compile", "--only", "plan", "--at", "2027-05-03T08:00:00+02:00", "--out", w.jobs.out(),
                         w.jobs / "metric/burnisher.toml"},
                        w.now));
    std::filesystem::rename(reg, reg + ".kept");
    CHECK(w.run({"import", all}).exit == Exit::world);
    w.now = noon;
    CHECK(w.run({"import", all}).exit == Exit::done);
  }
}

TEST_CASE("what was entered while the clock stood in 2039 can be exported, imported and taken back") {
  Workshop w;
  const std::string reg = w.jobs / "metric/shop.register";
  const std::string all = w.jobs / "metric/all.jsonl";
  // As an earlier version wrote it, which took any clock for right: entry 24, the sizes of NG7-32GX.
  std::string text = bytes_of(std::string{BLANKWRIGHT_SOURCE_DIR} + "/tests/register/formats/export-1.jsonl");
  const std::string was = "\"kind\":\"measured\",\"at\":\"2026";
  text.replace(text.find(was), was.size(), "\"kind\":\"measured\",\"at\":\"2039");
  std::ofstream{all, std::ios::binary} << text;
  std::filesystem::remove(reg);
  REQUIRE(w.run({"import", all}).exit == Exit::done);
  CHECK(w.run({"enter", "weighed", "SG8-CRCT", "mass=131 g"}).exit == Exit::done);
  CHECK(w.run({"enter", "corrected", "--replaces", "24", "reason=the clock was wrong"}).exit == Exit::done);
  CHECK(w.run({"enter", "weighed", "NG7-32GX", "mass=251 g"}).exit == Exit::done);
  REQUIRE(w.run({"export", all}).exit == Exit::done);
  std::filesystem::remove(reg);
  CHECK(w.run({"import", all}).exit == Exit::done);
}

TEST_CASE("a clock that is behind the last entry is told with both times and the way out") {
  Workshop w;
  w.hours(24 * 365);
  REQUIRE(w.run({"enter", "weighed", "NG7-32GX", "mass=131 g"}).exit == Exit::done);
  w.now = noon;
  const ProgramRun refused = w.run({"enter", "weighed", "JF2-T4JV", "mass=131 g"});
  CHECK(refused.exit == Exit::mistakes);
  CHECK(
      refused.errors.find("this machine's clock says 2027-05-03 12:00 UTC, and the register's last entry was "
                          "written at 2028-05-02 12:00: set the clock; where that one was wrong, export, and import "
                          "into a new register") != std::string::npos);
  // That way does lead out.
  const std::string all = w.jobs / "metric/all.jsonl";
  REQUIRE(w.run({"export", all}).exit == Exit::done);
  std::filesystem::remove(w.jobs / "metric/shop.register");
  REQUIRE(w.run({"import", all}).exit == Exit::done);
  CHECK(w.run({"enter", "weighed", "JF2-T4JV", "mass=131 g"}).exit == Exit::done);
}

TEST_CASE("a moment that another zone's calendar puts outside the known years is refused") {
  Workshop w;
  const ProgramRun run = w.run({"enter", "weighed", "NG7-32GX", "mass=1 g", "--at", "1970-01-01T00:00:00+12:00"});
  CHECK(run.exit == Exit::command_line);
  CHECK(run.errors.find("--at: in some zones this moment lies outside the years") != std::string::npos);
}
