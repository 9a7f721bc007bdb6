// Blanks that are promised to another order than the one that they were issued to. Through the program.

#include <doctest/doctest.h>
#include <fstream>
#include <nlohmann/json.hpp>

#include <iterator>
#include <utility>

#include "bench_of_work.h"

using namespace blankwright;

namespace {

/// The metric sample at work, and a second order of its shop: the same in some words others.
struct TwoOrders : BenchOfWork {
  using Changes = std::vector<std::pair<std::string, std::string>>;
  std::string a = blanks.at(0), witness = blanks.back();
  std::string second = jobs / "metric/second.toml";

  /// Compiles order TA-0200, which is the sample but for these changes.
  ProgramRun compile_second(double hours, const Changes& changes, std::vector<std::string> flags = {}) const {
    std::ifstream in{jobs / "metric/burnisher.toml"};
    std::string text{std::istreambuf_iterator<char>{in}, {}};
    for (const auto& [from, to] : changes) text.replace(text.find(from), from.size(), to);
    text.replace(text.find("TA-0147"), 7, "TA-0200");
    std::ofstream{second} << text;
    std::vector<std::string> arguments{"compile", "--only", "plan", "--out", jobs.out(), second};
    arguments.insert(arguments.end(), flags.begin(), flags.end());
    ProgramRun ran = run_program(std::move(arguments), moment(hours));
    REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
    return ran;
  }
  nlohmann::json start_of_second() const {
    std::ifstream file{jobs.out() + "/TA-0200/plan.json"};
    return nlohmann::json::parse(file).at("start_count");
  }
  void cure(double hours, const std::string& id, const std::string& load) const {
    enter(hours, {"into-oven", id, "load=" + load});
    enter(hours + 1.5, {"core-temperature", "load=" + load, "temperature=86 °C"});
    enter(hours + 3, {"out-of-oven", id});
  }
};

const TwoOrders::Changes larger{{"diameter = \"34 mm\"", "diameter = \"74 mm\""}};
const TwoOrders::Changes untreated{{"[treatment]\nresin = \"Clear K\"\nwitness = true\n", ""}};
const TwoOrders::Changes dyed{{"resin = \"Clear K\"", "resin = \"Clear K\"\ndye = \"soot\""}};

}  // namespace

TEST_CASE("a promise to an order that the blank does not fit is questioned, with what stands against it") {
  const TwoOrders w;
  const auto promised = [&] { return w.enter(2, {"promised", w.a, "order=TA-0200"}); };
  SUBCASE("its wood") {
    w.compile_second(1, {{"European beech", "black walnut"}});
    CHECK(has(promised(), w.a + " CHECK: it does not fit order TA-0200: another species\n"));
    CHECK(has(w.run(3, {"bench"}, "promised\nTA-0200\n" + w.blanks.at(1) + "\n").out,
              "NO CHECK: it does not fit order TA-0200: another species | "));
  }
  SUBCASE("its size") {
    w.compile_second(1, larger);
    CHECK(has(promised(), w.a + " CHECK: it does not fit order TA-0200: too small\n"));
  }
  SUBCASE("its resin") {
    w.compile_second(-1, dyed);
    w.bathe({w.a});
    CHECK(has(w.enter(24, {"promised", w.a, "order=TA-0200"}), "TA-0200: another resin or dye"));
  }
  SUBCASE("none") {
    w.compile_second(1, {});
    CHECK_FALSE(has(promised(), "CHECK"));
  }
}

TEST_CASE("what was promised to an order and does not fit it is no piece of it, and named") {
  const TwoOrders w;
  w.enter(-2, {"sawn", w.a, w.blanks.at(1), "board=T4"});
  w.compile_second(-1, larger);
  const int alone = w.start_of_second().at("pieces");
  w.enter(1, {"promised", w.a, "order=TA-0200"});
  const ProgramRun ran = w.compile_second(2, larger);
  CAPTURE(ran.errors);
  CHECK(has(ran.errors, "of the blanks promised to the order one does not fit it and is not counted: " + w.a +
                            " (too small; could become TA-0147: fits"));
  CHECK_FALSE(has(ran.errors, "ids-not-needed"));
  CHECK(w.start_of_second().at("from_stock") == 0);
  CHECK(w.start_of_second().at("pieces") == alone);
  // One that fits takes the place of one to be sawn.
  w.compile_second(3, {});
  CHECK(w.start_of_second().at("from_stock") == 1);
}

TEST_CASE("a blank is held against the order that it was bathed for, not the one that it was issued to") {
  const TwoOrders w;
  w.compile_second(-1, dyed);
  w.enter(-0.5, {"promised", w.a, "order=TA-0200"});
  w.bathe({w.a});
  CHECK_FALSE(has(w.compile_second(24, dyed).errors, "blanks-do-not-fit"));
  CHECK(w.start_of_second().at("from_stock") == 1);
  CHECK(has(w.ask(25, w.a), "TA-0200: fits"));
  CHECK(has(w.ask(25, w.a), "TA-0147: another resin or dye"));
}

TEST_CASE("a blank that is promised to an order without treatment keeps every HOLD of its bath and its load") {
  const TwoOrders w;
  w.compile_second(-1, untreated);
  w.bathe({w.a, w.witness});
  const auto promise = [&](double hours) { w.enter(hours, {"promised", w.a, "order=TA-0200"}); };
  SUBCASE("short of resin") {
    w.enter(23.5, {"weighed", w.a, w.grams(w.dry_g + 5)});
    REQUIRE(has(w.ask(23.6, w.a), "HOLD: soak again"));
    promise(24);
    CHECK(has(w.ask(25, w.a), "HOLD: soak again"));
    CHECK(has(w.enter(26, {"into-oven", w.a, "load=O2"}), "went on against its check (resin): HOLD: soak again"));
  }
  SUBCASE("its cure open, and no witness cut") {
    promise(23.9);
    w.enter(24, {"into-oven", w.a, "load=O2"});
    CHECK(has(w.ask(24.1, w.a), "load O2: enter the true temperature"));
    w.enter(24.5, {"out-of-oven", w.a});
    CHECK(has(w.ask(25, w.a), "HOLD: nothing shows that load O2 is cured"));
    CHECK(has(w.ask(25, w.a), "no witness of bath K2 was cut open yet"));
    CHECK(has(w.enter(26, {"squared", w.a, "width=41 mm", "depth=41 mm"}), "went on against its check (cure)"));
  }
  SUBCASE("a vacuum that was released too soon is told of the bath all the same") {
    w.enter(24, {"into-bath", w.blanks.at(1), "bath=K3"});
    w.enter(25, {"promised", w.blanks.at(1), "order=TA-0200"});
    w.enter(26, {"vacuum-on", "bath=K3"});
    CHECK(has(w.enter(27, {"released", "bath=K3"}), "HOLD: nobody entered that it reached its vacuum"));
  }
  SUBCASE("answered, they are gone") {
    w.cure(24, w.a, "O2");
    w.cure(28, w.witness, "O3");
    w.enter(32, {"witness-cut", w.witness, "filled=yes", "hard=yes"});
    promise(33);
    CHECK_FALSE(has(w.ask(34, w.a), "HOLD"));
    CHECK(has(w.ask(34, w.a), "the resin reached the middle"));
  }
}
