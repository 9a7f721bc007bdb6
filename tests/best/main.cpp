// How far plans of two to four orders are from the best that is known of them.
#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "../year/kept_results.h"
#include "instance.h"
#include "search.h"

namespace {

using best_plans::Found;
using best_plans::Instance;
using best_plans::Result;
using nlohmann::json;

struct Best {
  int seed = 0;
  Result result;
};

std::vector<Best> read_best(const std::filesystem::path& file) {
  std::ifstream in{file};
  std::vector<Best> all;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line.front() == '#' || line.front() == 's') continue;
    std::ranges::replace(line, ',', ' ');
    std::istringstream words{line};
    Best& one = all.emplace_back();
    words >> one.seed >> one.result.late >> one.result.finish;
  }
  return all;
}

/// A seed's instance searched: all ways to share, so many placings in all.
json searched(const simulated::KeptSeeds& seeds, int seed, int placings) {
  const auto folder = seeds.folder / fmt::format("seed-{}", seed);
  std::filesystem::remove_all(folder);
  Instance instance{seeds.program, folder, seed};
  const auto planned = instance.planned();
  json out = {{"seed", seed}, {"possible", planned.has_value()}};
  if (!planned) return out;
  const auto problems = instance.problems();
  const auto lines = instance.lines();
  std::optional<Found> best;
  bool all_proved = true;
  for (const auto& problem : problems) {
    const auto found = best_plans::best_of(problem, lines, placings, static_cast<unsigned>(seed));
    if (!found) continue;
    all_proved = all_proved && found->proved;
    if (!best || found->result < best->result) best = found;
  }
  std::filesystem::remove_all(folder);
  if (!best) return {{"seed", seed}, {"possible", false}};
  out["late"] = best->result.late;
  out["finish"] = best->result.finish;
  out["proved"] = all_proved || best->result.late == 0;
  return out;
}

int find(const simulated::KeptSeeds& seeds, int placings) {
  std::filesystem::create_directories(seeds.folder);
  for (const json& one : simulated::results_of(
           seeds, [&](int seed) { return searched(seeds, seed, placings); }, [](const json&) {})) {
    if (!one["possible"].get<bool>()) continue;
    fmt::print("{},{},{},{}\n", one["seed"].get<int>(), one["late"].get<int>(), one["finish"].get<int>(),
               one["proved"].get<bool>() ? 1 : 0);
  }
  return 0;
}

/// Within 5 %, of lateness first.
bool is_near(const Result& plan, const Result& best) {
  return plan <= best || (plan.late * 20 <= best.late * 21 && plan.finish * 20 <= best.finish * 21);
}

/// False where fewer are near than so many of a hundred, or one is late where the best is not.
int hold(simulated::KeptSeeds seeds, const std::vector<Best>& known, int percent) {
  std::filesystem::create_directories(seeds.folder);
  for (const Best& one : known) seeds.seeds.push_back(one.seed);
  const auto live = [&](int seed) {
    const auto folder = seeds.folder / fmt::format("seed-{}", seed);
    std::filesystem::remove_all(folder);
    Instance instance{seeds.program, folder, seed};
    const auto planned = instance.planned();
    std::filesystem::remove_all(folder);
    json out = {{"seed", seed}, {"possible", planned.has_value()}};
    if (planned) out["late"] = planned->late, out["finish"] = planned->finish;
    return out;
  };
  int near = 0, late_alone = 0, better = 0;
  long late = 0, least_late = 0;
  double longer = 0;
  const auto results = simulated::results_of(seeds, live, [](const json&) {});
  for (std::size_t i = 0; i < known.size(); ++i) {
    const Best& best = known[i];
    if (!results[i]["possible"].get<bool>()) {
      fmt::print("seed {}: no plan\n", best.seed);
      continue;
    }
    const Result plan{results[i]["late"], results[i]["finish"]};
    const bool is_good = is_near(plan, best.result);
    near += is_good ? 1 : 0;
    late_alone += plan.late > 0 && best.result.late == 0 ? 1 : 0;
    better += plan < best.result ? 1 : 0;
    late += plan.late;
    least_late += best.result.late;
    longer += static_cast<double>(plan.finish) / best.result.finish;
    if (!is_good)
      fmt::print("seed {}: late by {} min, finished after {}; best known {}, {}\n", best.seed, plan.late, plan.finish,
                 best.result.late, best.result.finish);
  }
  fmt::print(
      "{} of {} within 5 % of the best known; {} late where the best is not; {} better than it; late by {} h in all, "
      "best {} h; finish {:.3f} times the best's\n",
      near, known.size(), late_alone, better, late / 60, least_late / 60,
      longer / static_cast<double>(std::max<std::size_t>(known.size(), 1)));
  return near * 100 >= static_cast<int>(known.size()) * percent && late_alone == 0 ? 0 : 1;
}

int usage() {
  fmt::print(
      "usage: best_plans PROGRAM FOLDER hold CSV SEEDS PERCENT     the first so many of the file\n"
      "       best_plans PROGRAM FOLDER find PLACINGS FIRST LAST\n");
  return 2;
}

}  // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words{argv + 1, argv + argc};
  if (words.size() < 6) return usage();
  try {
    simulated::KeptSeeds seeds{words[0], words[1], {}};
    if (words[2] == "hold") {
      auto known = read_best(words[3]);
      known.resize(std::min(known.size(), static_cast<std::size_t>(std::stoul(words[4]))));
      return hold(seeds, known, std::stoi(words[5]));
    }
    if (words[2] != "find") return usage();
    for (int seed = std::stoi(words[4]); seed <= std::stoi(words[5]); ++seed) seeds.seeds.push_back(seed);
    return find(seeds, std::stoi(words[3]));
  } catch (const std::exception& problem) {
    fmt::print(stderr, "best_plans: {}\n", problem.what());
    return 3;
  }
}
