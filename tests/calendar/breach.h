#pragma once

#include <string>
#include <vector>

namespace calendar_rules {

/// A rule that a plan breaks.
struct Breach {
  std::string rule;  ///< "wait", "soak": the kind
  std::string what;
};

using Breaches = std::vector<Breach>;

}  // namespace calendar_rules
