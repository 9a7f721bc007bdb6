// Orders without a treatment: their blanks go from the saw to the turner, and nothing asks for a bath or a cure.

#include <doctest/doctest.h>

#include <fstream>

#include "bench_of_work.h"

using namespace blankwright;

namespace {

/// The metric sample's shop with an order of two knobs that are turned from wood as it is.
struct Knobs : BenchOfWork {
  std::string a, b;  ///< its blanks

  Knobs() {
    const std::string job = jobs / "metric/knobs.toml";
    std::ofstream{job} << "format = 1\nid = \"C-3\"\nclient = \"Bram Odell\"\nitem = \"knob\"\nquantity = 2\n"
                          "[handle]\nstations = [\n  {at = \"0 mm\", diameter = \"20 mm\"},\n"
                          "  {at = \"15 mm\", diameter = \"28 mm\"},\n  {at = \"46 mm\", diameter = \"18 mm\"},\n]\n"
                          "[stud]\nthread = \"M8\"\nenters = \"12 mm\"\n"
                          "[wood]\nspecies = \"European beech\"\nmoisture = \"9 %\"\n";
    const ProgramRun ran =
        run_program({"compile", "--quiet", "--only", "plan", "--out", jobs.out(), job}, moment(-20));
    REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
    std::istringstream table{run(-20, {"ask", "order", "C-3", "--as", "csv"}).out};
    std::string line;
    std::getline(table, line);
    for (std::string* id : {&a, &b}) {
      std::getline(table, line);
      *id = line.substr(0, line.find(','));
    }
  }

  std::vector<std::string> axis_of_knob(const std::string& kind, const std::string& id) const {
    std::vector<std::string> words = axis(kind, id);
    for (std::size_t face = 2; face < 6; ++face) words.at(face) = words.at(face).substr(0, 7) + "17 mm";
    return words;
  }
  /// One step more for a blank; what the terminal says, exit and errors.
  ProgramRun step(double hours, std::vector<std::string> words) const {
    words.insert(words.begin(), "enter");
    return run(hours, std::move(words));
  }
};

void check_silent(const ProgramRun& ran) {
  CAPTURE(ran.out);
  CAPTURE(ran.errors);
  CHECK(ran.exit == Exit::done);
  for (const char* word : {"dry", "weigh", "bath", "cure", "resin", "against", "HOLD"}) {
    CAPTURE(word);
    CHECK_FALSE(has(ran.out + ran.errors, word));
  }
}

}  // namespace

TEST_CASE("a whole order without treatment goes from the saw to the client, and nothing speaks of bath or cure") {
  const Knobs w;
  check_silent(w.step(0, {"sawn", w.a, "board=T1"}));
  const std::string told = w.ask(0, w.a);
  CHECK_FALSE(has(told, "check: dry"));
  check_silent(w.step(1, {"moisture", w.a, "moisture=9 %"}));
  CHECK(w.step(2, {"graded", w.a, "verdict=fill"}).exit == Exit::done);
  CHECK(has(w.ask(2, w.a), "fill its voids first"));
  check_silent(w.step(2, {"filled", w.a}));
  check_silent(w.step(2.1, {"graded", w.a, "verdict=go-on"}));
  check_silent(w.step(3, {"squared", w.a, "width=34 mm", "depth=34 mm"}));
  check_silent(w.step(4, w.axis_of_knob("bored", w.a)));
  check_silent(w.step(5, {"glued", w.a}));
  check_silent(w.step(30, w.axis_of_knob("stud-measured", w.a)));
  check_silent(w.step(31, {"turned", w.a}));
  check_silent(w.step(32, {"inspected", w.a, "result=pass", "thread=pass", "squareness=0.02 mm"}));
  check_silent(w.step(33, {"sent", w.a}));
  CHECK(has(w.run(34, {"ask", "order", "C-3"}).out, "1 good (1 sent)"));
}

TEST_CASE("a table and the bench take the same of an untreated blank") {
  const Knobs w;
  const std::string table = w.jobs / "metric/knobs.csv";
  std::ofstream{table} << "kind,blank,board,verdict\nsawn," << w.a << ",T1,\ngraded," << w.a << ",,go-on\n"
                       << "sawn," << w.b << ",T1,\n";
  CHECK(w.step(0, {"--csv", table}).exit == Exit::done);
  const ProgramRun bench = w.run(1, {"bench"}, "graded\ngo-on\n" + w.b + "\nsquared\n" + w.b + "\n34\n34\n");
  CHECK_FALSE(has(bench.out, "NO "));
  CHECK(has(w.ask(2, w.b), "squared"));
}

TEST_CASE("what is said too late of a blank that was worked without a bath speaks of no bath that it was in") {
  const Knobs w;
  w.enter(0, {"sawn", w.a, "board=T1"});
  w.enter(1, {"squared", w.a, "width=34 mm", "depth=34 mm"});
  const auto refused = [&](std::vector<std::string> words) {
    const ProgramRun ran = w.step(2, std::move(words));
    CHECK(ran.exit == Exit::mistakes);
    return ran.errors;
  };
  CHECK(has(refused({"moisture", w.a, "moisture=9 %"}), w.a + " is worked already, without a bath"));
  CHECK(has(refused({"into-bath", w.a, "bath=K1"}), w.a + " is worked already, without a bath"));
  CHECK(has(refused({"into-oven", w.a, "load=L1"}), w.a + " has not been in a bath"));
}

TEST_CASE("of a blank that is promised from a treated order to an untreated one, what it went through decides") {
  Knobs w;
  const std::string sawn = w.blanks.at(0), wet = w.blanks.at(1), promised_back = w.a;
  w.bathe({wet});
  for (const std::string& id : {sawn, wet}) w.enter(24, {"promised", id, "order=C-3"});
  CHECK(w.step(25, {"squared", sawn, "width=41 mm", "depth=41 mm"}).exit == Exit::done);
  CHECK(has(w.step(25, {"squared", wet, "width=41 mm", "depth=41 mm"}).errors, wet + " is not cured"));
  w.enter(25, {"promised", promised_back, "order=TA-0147"});
  CHECK(has(w.step(26, {"squared", promised_back, "width=34 mm", "depth=34 mm"}).errors, "is not cured"));
  CHECK(has(w.ask(26, promised_back), "check: dry"));
}
