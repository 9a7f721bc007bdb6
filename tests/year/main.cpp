// A simulated shop lives with the built program, by its command line and its printed sheets, and knows what is true.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <exception>
#include <string>
#include <string_view>
#include <vector>

#include "record.h"
#include "year.h"

namespace {

int usage() {
  fmt::print(
      "usage: shop_year PROGRAM FOLDER month SEED...\n       shop_year PROGRAM FOLDER year SEEDS\n"
      "       shop_year PROGRAM FOLDER again SEED...   (a year of these alone)\n"
      "       shop_year PROGRAM FOLDER record SEED...\n");
  return 2;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words{argv + 1, argv + argc};
  static constexpr std::array<std::string_view, 4> kinds = {"month", "year", "again", "record"};
  if (words.size() < 4 || std::ranges::find(kinds, words[2]) == kinds.end()) return usage();
  try {
    if (words[2] == "record") {
      for (std::size_t i = 3; i < words.size(); ++i)
        simulated::compare_with_and_without_record(words[0], words[1], std::stoi(words[i]), 30);
      return 0;
    }
    simulated::Plan plan{{words[0], words[1], {}}};
    if (words[2] == "year" || words[2] == "again") {
      plan.runs = 0;
      plan.days = 365;
      plan.days_between = 24;  // a batch of a dozen takes two or three weeks: fifty shops have 10,000 in an hour
      plan.blanks = 200;
      plan.provoked_at_least = 0;
    }
    if (words[2] == "year") {
      plan.by_every_kind = true;
      plan.keep_results = true;
      plan.provoked_at_least = 20;
      for (int seed = 0; seed < std::stoi(words[3]); ++seed) plan.seeds.push_back(seed);
    } else {
      for (std::size_t i = 3; i < words.size(); ++i) plan.seeds.push_back(std::stoi(words[i]));
    }
    return simulated::live_and_report(plan) ? 0 : 1;
  } catch (const std::exception& problem) {
    fmt::print(stderr, "shop_year: {}\n", problem.what());
    return 3;
  }
}
