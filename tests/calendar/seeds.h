#pragma once

#include <string>
#include <vector>

#include "../year/kept_results.h"
#include "seed.h"

namespace calendar_rules {

struct Seeds : simulated::KeptSeeds {
  Resources with = Resources::hours_alone;
  std::vector<std::string> not_held_yet{};  ///< rules that are told, and no failure
};

/// Lives through all of them, as many at once as there are cores, and tells what is broken, of each rule the first
/// ones with the commands after which it can be seen. True where nothing is but what is not held yet.
bool hold_all(const Seeds& seeds);

}  // namespace calendar_rules
