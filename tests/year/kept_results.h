#pragma once

#include <filesystem>
#include <functional>
#include <nlohmann/json.hpp>
#include <vector>

namespace simulated {

/// Seeds that something is tried with, and where what came of each is kept.
struct KeptSeeds {
  std::filesystem::path program, folder;
  std::vector<int> seeds;
  bool keep_results = false;  ///< what a seed gave with this very program stands
};

/// What `live` makes of each seed, as many at once as there are cores; in their order. `tell` hears of each as soon
/// as it is there, one at a time. What goes wrong with a seed is told with its number, ends the others, and is
/// thrown.
std::vector<nlohmann::json> results_of(const KeptSeeds& kept, const std::function<nlohmann::json(int seed)>& live,
                                       const std::function<void(const nlohmann::json&)>& tell);

}  // namespace simulated
