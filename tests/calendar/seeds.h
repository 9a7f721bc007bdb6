#pragma once

#include "../year/kept_results.h"
#include "seed.h"

namespace calendar_rules {

/// Lives through all of them, as many at once as there are cores, and tells what is broken, of each rule the first
/// ones with the commands after which it can be seen. True where nothing is.
bool hold_all(const simulated::KeptSeeds& seeds);

}  // namespace calendar_rules
