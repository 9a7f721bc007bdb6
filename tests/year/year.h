#pragma once

#include <filesystem>
#include <vector>

namespace simulated {

struct Plan {
  std::filesystem::path program;
  std::filesystem::path folder;  ///< a folder in it for each seed; a seed that has its result there is not run again
  int runs = 4;                  ///< of orders that each shop makes
  std::vector<int> seeds;
};

/// Lives through all seeds, one shop each, and reports. False where a verdict or a sheet was wrong, or where an unsafe answer
/// was not provoked.
bool live_and_report(const Plan& plan);

}  // namespace simulated
