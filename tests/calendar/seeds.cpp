#include "seeds.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>

namespace calendar_rules {
namespace {

using nlohmann::json;

json to_json(const Lived& lived) {
  json out = {{"seed", lived.seed},   {"orders", lived.orders},  {"refused", lived.refused},
              {"runs", lived.runs},   {"baths", lived.baths},    {"under way", lived.under_way},
              {"cpu_s", lived.cpu_s}, {"broken", json::array()}, {"commands", lived.commands}};
  for (const Breach& breach : lived.breaches) out["broken"].push_back({{"rule", breach.rule}, {"what", breach.what}});
  return out;
}

/// What is not broken leaves no folder behind.
json lived(const simulated::KeptSeeds& seeds, int seed) {
  const std::filesystem::path folder = seeds.folder / fmt::format("seed-{}", seed);
  json result = to_json(live(seeds.program, folder, seed));
  if (result["broken"].empty()) std::filesystem::remove_all(folder);
  return result;
}

/// Of each rule the first ones; all of them stand in the seed's result.
void tell(const json& result, std::map<std::string, int>& told) {
  std::map<std::string, int> here;
  for (const json& broken : result["broken"]) {
    const std::string rule = broken["rule"];
    if (++here[rule] > 1 || ++told[rule] > 3) continue;
    fmt::print("BROKEN, seed {}: {}: {}\n", result["seed"].get<int>(), rule, broken["what"].get<std::string>());
    for (const json& command : result["commands"]) fmt::print("    {}\n", command.get<std::string>());
  }
}

}  // namespace

bool hold_all(const simulated::KeptSeeds& seeds) {
  std::filesystem::create_directories(seeds.folder);
  std::map<std::string, int> told, sum, broken;
  double cpu_s = 0;
  const auto live_with = [&](int seed) { return lived(seeds, seed); };
  for (const json& result : simulated::results_of(seeds, live_with, [](const json&) {})) {
    tell(result, told);
    for (const char* what : {"orders", "refused", "runs", "baths", "under way"}) sum[what] += result[what].get<int>();
    for (const json& one : result["broken"]) ++broken[one["rule"].get<std::string>()];
    cpu_s += result["cpu_s"].get<double>();
  }
  fmt::print(
      "{} shops, {} orders and {} that they cannot make, {} runs in {} baths, {} of them under way, {:.1f} CPU s\n",
      seeds.seeds.size(), sum["orders"], sum["refused"], sum["runs"], sum["baths"], sum["under way"], cpu_s);
  for (const auto& [rule, times] : broken) fmt::print("BROKEN: {}: {} times\n", rule, times);
  return broken.empty();
}

}  // namespace calendar_rules
