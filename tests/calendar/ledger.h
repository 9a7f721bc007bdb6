#pragma once

#include <map>
#include <optional>
#include <string>

#include "clock.h"

namespace calendar_rules {

/// What goes on with a blank.
struct GoingOn {
  std::size_t step = 0;  ///< of the shop's routing
  Instant since;
  std::string place, name;  ///< vessel or oven, and the name of bath or load, as they were entered
};

/// What was entered of one blank.
struct BlankSeen {
  std::string order{};
  bool witness = false;
  std::size_t next = 0;                ///< the first step of the routing that is open for it
  std::optional<GoingOn> going_on{};   ///< with that step
  std::map<std::size_t, Span> done{};  ///< by step: when it was begun and ended, as entries tell
  std::string bath{};                  ///< it is in, or was in
  bool over = false;                   ///< scrapped or cut open
};

/// Of all blanks, by their IDs.
using Ledger = std::map<std::string, BlankSeen>;

}  // namespace calendar_rules
