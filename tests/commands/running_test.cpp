// What runs, by the gates and by the shop's own hours: today's list and the warnings. Times by hand, from the figures
// that the sample shop states: core at 85 °C and 1 h of hold, weighings 2 h apart (EN 13183-1).

#include <doctest/doctest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "bench_of_work.h"

using namespace blankwright;

namespace {

struct Running : BenchOfWork {
  std::string a = blanks.at(0), b = blanks.at(1), c = blanks.at(2);

  std::string today(double hours) const { return run(hours, {"today"}).out; }
  std::string compile_says(double hours) const {
    const ProgramRun run_now =
        run(hours, {"compile", "--draft", "--quiet", "--out", jobs.out(), jobs / "metric/burnisher.toml"});
    REQUIRE(run_now.exit == Exit::done);
    return run_now.errors;
  }
  /// Puts a line behind the one that names a vessel or an oven.
  void add_to_shop(const std::string& name, const std::string& line) const {
    std::string text = bytes_of(shop);
    const auto found = text.find("name = \"" + name + "\"\n");
    REQUIRE(found != std::string::npos);
    text.insert(text.find('\n', found) + 1, line + "\n");
    std::ofstream{shop} << text;
  }
};

}  // namespace

TEST_CASE("a load in the oven is planned to come out when its readings let it, not when its card alone would") {
  const Running w;
  w.bathe({w.a});
  w.enter(24, {"into-oven", w.a, "load=O2"});
  w.enter(27, {"core-temperature", "load=O2", "temperature=86 °C"});  // 17:00, and an hour of hold
  const std::string told = w.today(27.1);
  CAPTURE(told);
  CHECK(has(w.run(27.1, {"ask", "load", "O2"}).out, "may come out from 2027-05-04 18:00"));
  CHECK(has(told, "ends at the earliest 18:00"));
}

TEST_CASE("wood that dries is planned to be weighed again when that can show something") {
  const Running w;
  w.enter(-23, {"sawn", w.a, "board=T4"});
  w.enter(-22, {"into-drying", w.a, "load=D1"});
  w.enter(1, {"weighed", w.a, w.grams(w.dry_g + 2)});
  w.enter(4, {"weighed", w.a, w.grams(w.dry_g + 1)});  // 18:00, and still losing: 20:00 at the earliest
  CHECK(has(w.ask(4.1, w.a), "from 2027-05-03 20:00"));
  CHECK(has(w.today(4.1), "ends at the earliest 20:00"));
}

TEST_CASE("a bath whose vacuum is not on yet takes the others that were planned for it") {
  const Running w;
  for (const std::string& id : {w.a, w.b}) w.enter(3, {"into-bath", id, "bath=K2", "vessel=trough"});
  const auto vacuums = [&](double hours) {
    std::vector<int> blanks;
    REQUIRE(w.run(hours, {"compile", "--draft", "--quiet", "--out", w.jobs.out(), w.jobs / "metric/burnisher.toml"})
                .exit == Exit::done);
    const auto plan = nlohmann::json::parse(bytes_of(w.jobs.out() + "/TA-0147/plan.json"));
    for (const auto& operation : plan.at("schedule")) {
      if (operation.at("op") != "Bath: vacuum") continue;
      for (const auto& run : operation.at("runs")) blanks.push_back(run.at("blanks").get<int>());
    }
    return blanks;
  };
  CHECK(vacuums(3.1) == std::vector{10});
  w.enter(3.2, {"vacuum-on", "bath=K2"});
  CHECK(vacuums(3.3) == std::vector{2, 8});
}

TEST_CASE("a vacuum is held from its target on") {
  const Running w;
  w.enter(18, {"into-bath", w.a, "bath=K2", "vessel=tall pot"});
  w.enter(18, {"vacuum-on", "bath=K2"});  // 08:00
  w.enter(18.5, {"target-reached", "bath=K2", "gauge=90 kPa"});
  CHECK(has(w.today(18.6), "ends at the earliest 14:30"));  // 6 h, as the sample's shop holds it
}

TEST_CASE("blanks that wait in a vessel for the others are planned in that one") {
  const Running w;
  w.enter(3, {"into-bath", w.a, "bath=K2", "vessel=tall pot"});
  REQUIRE(
      w.run(3.1, {"compile", "--draft", "--quiet", "--out", w.jobs.out(), w.jobs / "metric/burnisher.toml"}).exit ==
      Exit::done);
  const auto plan = nlohmann::json::parse(bytes_of(w.jobs.out() + "/TA-0147/plan.json"));
  CHECK(plan.at("baths").at(0).at("vessel") == "tall pot");
}

TEST_CASE("a vacuum on blanks without a witness is questioned while one can still be put in") {
  const Running w;
  const std::string witness = w.blanks.back();
  w.enter(3, {"into-bath", w.a, "bath=K2"});
  CHECK(has(w.enter(3.1, {"vacuum-on", "bath=K2"}), "no witness is in this bath"));
  w.enter(3.2, {"released", "bath=K2"});
  w.enter(4, {"into-bath", w.b, "bath=K3"});
  w.enter(4, {"into-bath", witness, "bath=K3"});
  CHECK_FALSE(has(w.enter(4.1, {"vacuum-on", "bath=K3"}), "witness"));
  w.enter(4.2, {"released", "bath=K3"});
  w.enter(4.25, {"out-of-bath", witness});
  w.enter(4.3, {"into-bath", w.c, "bath=K4"});
  w.enter(4.3, {"into-bath", witness, "bath=K4"});
  w.enter(4.4, {"out-of-bath", witness});  // and it lies beside the bath when its pump is switched on
  CHECK(has(w.enter(4.5, {"vacuum-on", "bath=K4"}), "no witness is in this bath"));
}

TEST_CASE("what runs on when nobody is there, or while its vessel is out of order, is told with both times") {
  const Running w;
  w.enter(1, {"weighed", w.a, w.grams(w.dry_g)});
  w.enter(1, {"into-bath", w.a, "bath=K3", "vessel=trough"});
  w.enter(1, {"vacuum-on", "bath=K3"});  // 15:00; the pump may not run alone, and the shop closes at 16:30
  const std::string told = w.compile_says(1.1);
  CAPTURE(told);
  CHECK(has(told, "[runs-alone]"));
  CHECK(has(told, "which is so from 2027-05-03 16:30 on"));
  CHECK_FALSE(has(told, "[runs-into-outage]"));
  CAPTURE(w.today(1.1));
  CHECK(has(w.today(1.1), "nobody is there then: end it, or stay until"));
  w.add_to_shop("trough", "outages = [{from = \"2027-05-03 17:00\", to = \"2027-05-05 08:00\"}]");
  const std::string out_of_order = w.compile_says(1.1);
  CAPTURE(out_of_order);
  CHECK(has(out_of_order, "[runs-into-outage]"));
  CHECK(has(w.today(1.1), "trough out of order from 17:00"));
  CHECK(has(out_of_order, "runs in \"trough\" since 2027-05-03 15:00"));
}
