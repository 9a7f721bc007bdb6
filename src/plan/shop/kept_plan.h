#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plan/shop/shop_plan.h"

namespace blankwright {

/// What of an order's operation was still to come when it was planned.
struct KeptOperation {
  std::string name;
  Interval at;
  int blanks = 0;
};

/// An order's plan in lines, to be kept beside what was printed of it: what was to come or ran then.
std::string kept_plan(const PlacedTimes& times);
/// Reads it back; a line that is none of ours is passed over.
std::vector<KeptOperation> read_kept_plan(std::string_view lines);

/// An operation that lies elsewhere than it was planned.
struct MovedOperation {
  std::string name;
  Interval before, now;
};
/// What moved since a plan was kept, in the order of the routing: of the operations that are still to come now and
/// were then.
std::vector<MovedOperation> moved_since(const std::vector<KeptOperation>& before, const PlacedTimes& now);

}  // namespace blankwright
