#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include <fstream>
#include <iterator>
#include <regex>

#include "bench_of_work.h"

using namespace blankwright;

namespace {

/// The oven card of an order's traveller, as words.
std::string oven_card(const SampleJobs& jobs, const std::string& id) {
  const std::string words = copied_text(bytes_of(jobs.out() + "/" + id + "/traveller.pdf"));
  const std::size_t begin = words.find("Oven card 1");  // not where the routing says so
  REQUIRE(begin != std::string::npos);
  return std::regex_replace(words.substr(begin, words.find('\f', begin) - begin), std::regex{R"(\s+)"}, " ");
}

/// The least time in the oven, by the card's words.
std::string least_time(const std::string& card) {
  std::smatch found;
  REQUIRE(std::regex_search(card, found, std::regex{R"(lowest air: ([0-9]+ h( [0-9]+ min)?) \(93 °C\))"}));
  return found[1];
}

}  // namespace

TEST_CASE("the cards of a load of two orders tell the times of its slowest blanks, and whose core is measured") {
  const SampleJobs jobs;
  const std::string thick =
      std::regex_replace(bytes_of(jobs / "metric/burnisher.toml"), std::regex{"quantity = 6"}, "quantity = 2");
  std::string thin = std::regex_replace(thick, std::regex{"TA-0147"}, "TA-0148");
  thin = std::regex_replace(thin, std::regex{"diameter = \"(31|34|30) mm\""}, "diameter = \"25.5 mm\"");
  std::ofstream{jobs / "metric/thin.toml"} << thin;
  std::ofstream{jobs / "metric/burnisher.toml"} << thick;
  const auto compile = [&](std::vector<std::string> files) {
    std::vector<std::string> words{"compile", "--quiet", "--draft", "--only", "traveller", "--out", jobs.out()};
    for (const std::string& file : files) words.push_back(jobs / file);
    const ProgramRun ran = run_program(std::move(words));
    REQUIRE_MESSAGE(ran.exit == Exit::done, ran.errors);
  };
  compile({"metric/thin.toml"});
  const std::string alone = least_time(oven_card(jobs, "TA-0148"));
  compile({"metric/burnisher.toml", "metric/thin.toml"});
  const std::string of_thin = oven_card(jobs, "TA-0148"), of_thick = oven_card(jobs, "TA-0147");
  REQUIRE(of_thick.find("TA-0148") != std::string::npos);  // they share the load
  CHECK(least_time(of_thin) == least_time(of_thick));
  CHECK(least_time(of_thin) != alone);
  CHECK(of_thin.find("Core temperature, witness in coldest place: TA-0147.") != std::string::npos);
  CHECK(of_thick.find("Core temperature, witness in coldest place: TA-0147.") != std::string::npos);
}

TEST_CASE("a core reading frees no blank whose middle warms later than the one that it was taken in") {
  const BenchOfWork w;
  std::string text = std::regex_replace(bytes_of(w.jobs / "metric/burnisher.toml"), std::regex{"TA-0147"}, "TA-0148");
  text = std::regex_replace(text, std::regex{"diameter = \"(31|34|30) mm\""}, "diameter = \"25.5 mm\"");
  std::ofstream{w.jobs / "metric/thin.toml"} << text;
  REQUIRE(
      run_program({"compile", "--only", "plan", "--out", w.jobs.out(), w.jobs / "metric/thin.toml"}, w.moment(-20))
          .exit == Exit::done);
  std::ifstream file{w.jobs.out() + "/TA-0148/plan.json"};
  const std::string thin = nlohmann::json::parse(file).at("blanks").at(0).at("id"), thick = w.blanks.at(0);
  w.bathe({thin, thick});
  for (const std::string& id : {thin, thick}) w.enter(23.2, {"into-oven", id, "load=O2"});
  const std::string could_be_either = w.enter(24.6, {"core-temperature", "load=O2", "temperature=86 °C"});
  CHECK(has(could_be_either, "load O2 holds blanks whose middle warms later"));
  const std::string in_thin = w.run(24.7, {"bench"}, "core-temperature\n" + thin + "\nO2\n86 °C\n").out;
  CHECK_MESSAGE(has(in_thin, "in_blank " + thin), in_thin);
  CHECK(has(in_thin, "load O2 holds blanks whose middle warms later"));
  const auto frees_thin = [&] {
    CHECK(has(w.enter(26, {"out-of-oven", thin}), "cured: load O2 was held with its core at temperature"));
  };
  SUBCASE("alone") {
    frees_thin();
    CHECK(has(w.enter(26, {"out-of-oven", thick}), "HOLD: nothing shows that load O2 is cured (its core was not"));
  }
  SUBCASE("with one of its own") {
    w.enter(24.8, {"core-temperature", "load=O2", "temperature=86 °C", "in_blank=" + thick});
    frees_thin();
    CHECK(has(w.enter(26, {"out-of-oven", thick}), "cured: load O2 was held with its core at temperature"));
  }
  SUBCASE("one that lies in another load is none of its blanks") {
    const ProgramRun ran =
        w.run(24.9, {"enter", "core-temperature", "load=O2", "temperature=86 °C", "in_blank=" + w.blanks.at(1)});
    CHECK(ran.exit == Exit::mistakes);
    CHECK_MESSAGE(has(ran.errors, "load O2 does not hold " + w.blanks.at(1)), ran.errors);
  }
}
