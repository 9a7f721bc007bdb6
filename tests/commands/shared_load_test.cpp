#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <regex>

#include "program.h"

using namespace blankwright;

namespace {

std::string text_of(const std::string& path) {
  std::ifstream file{path};
  return {std::istreambuf_iterator<char>{file}, {}};
}

/// The oven card of an order's traveller, as words.
std::string oven_card(const SampleJobs& jobs, const std::string& id) {
  const std::string words = copied_text(text_of(jobs.out() + "/" + id + "/traveller.pdf"));
  const std::size_t begin = words.find("Oven card");
  REQUIRE(begin != std::string::npos);
  return words.substr(begin, words.find('\f', begin) - begin);
}

/// The least time in the oven, by the card's words.
std::string least_time(const std::string& card) {
  std::smatch found;
  REQUIRE(std::regex_search(card, found, std::regex{R"(to its last at least: 93 °C ([0-9]+ h( [0-9]+ min)?))"}));
  return found[1];
}

}  // namespace

TEST_CASE("the cards of a load of two orders tell the times of its slowest blanks, and whose core is measured") {
  const SampleJobs jobs;
  const std::string thick =
      std::regex_replace(text_of(jobs / "metric/burnisher.toml"), std::regex{"quantity = 6"}, "quantity = 2");
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
  CHECK(of_thin.find("Core temperature in a witness in the coldest place: TA-0147.") != std::string::npos);
  CHECK(of_thick.find("Core temperature in a witness in the coldest place: TA-0147.") != std::string::npos);
}
