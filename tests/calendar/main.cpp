// Random shops plan random orders, and each plan is held against the rules of the calendar.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <exception>
#include <string>
#include <string_view>

#include "seeds.h"

namespace {

int usage() {
  fmt::print(
      "usage: calendar_rules PROGRAM FOLDER fresh SEEDS\n"
      "       calendar_rules PROGRAM FOLDER kept SEEDS\n"
      "       calendar_rules PROGRAM FOLDER again SEED...\n");
  return 2;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words{argv + 1, argv + argc};
  static constexpr std::array<std::string_view, 3> kinds = {"fresh", "kept", "again"};
  if (words.size() < 4 || std::ranges::find(kinds, words[2]) == kinds.end()) return usage();
  try {
    simulated::KeptSeeds seeds{words[0], words[1], {}};
    seeds.keep_results = words[2] == "kept";
    if (words[2] == "again") {
      for (std::size_t i = 3; i < words.size(); ++i) seeds.seeds.push_back(std::stoi(words[i]));
    } else {
      for (int seed = 0; seed < std::stoi(words[3]); ++seed) seeds.seeds.push_back(seed);
    }
    return calendar_rules::hold_all(seeds) ? 0 : 1;
  } catch (const std::exception& problem) {
    fmt::print(stderr, "calendar_rules: {}\n", problem.what());
    return 3;
  }
}
