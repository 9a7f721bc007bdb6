// A bench that goes on while orders are compiled elsewhere.

#include <doctest/doctest.h>
#include <fstream>

#include <iterator>

#include "bench_of_work.h"
#include "typed_lines.h"

using namespace blankwright;

namespace {

std::string bench(const BenchOfWork& w, std::vector<TypedLines::Line> lines) {
  RealFiles disk;
  const FixedClock clock{BenchOfWork::moment(5)};
  FixedChance chance{0};
  TypedLines typed{std::move(lines)};
  std::istream in{&typed};
  std::ostringstream out, errors;
  Surroundings around{disk, clock, chance, in, out, errors, {}};
  CHECK(run({"blankwright", "bench", "--shop", w.shop}, around) == Exit::done);
  return out.str();
}

}  // namespace

TEST_CASE("the bench judges by the order and the shop as they were compiled last, also while it goes on") {
  const BenchOfWork w;
  const std::string job = w.jobs / "metric/burnisher.toml";
  const auto compile = [&] {
    const ProgramRun ran =
        run_program({"compile", "--quiet", "--only", "plan", "--out", w.jobs.out(), job}, w.moment(4));
    REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
  };
  SUBCASE("another form") {
    const std::string out = bench(w, {{"measured\n"},
                                      {w.blanks.at(0) + "\n45 mm\n"},
                                      {"45 mm\n"},
                                      {w.blanks.at(1) + "\n45 mm\n",
                                       [&] {
                                         change(job, "diameter = \"34 mm\"", "diameter = \"74 mm\"");
                                         compile();
                                       }},
                                      {"45 mm\n"}});
    CAPTURE(out);
    CHECK(has(out, "OK " + w.blanks.at(0) + " measured"));
    CHECK(has(out, "NO CHECK: width is 45.00 mm, and "));
    CHECK(has(out, w.blanks.at(1) + " measured"));
  }
  SUBCASE("another rule of the shop") {
    // Sealed from the scale on it counts as dry after another interval.
    const std::string out = bench(w, {{"weighed " + w.blanks.at(0) + " 131 g\n"},
                                      {"weighed " + w.blanks.at(1) + " 131 g\n", [&] {
                                         change(w.shop, "[drying]\n", "[drying]\nbetween_weighings = \"3 h\"\n");
                                         compile();
                                       }}});
    CAPTURE(out);
    CHECK(has(out, w.blanks.at(0) + " weighed: mass 131.0 g | weigh it again, from 2027-05-03 21:00 on"));
    CHECK(has(out, w.blanks.at(1) + " weighed: mass 131.0 g | weigh it again, from 2027-05-03 22:00 on"));
  }
}
