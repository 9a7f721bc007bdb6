#pragma once

#include <optional>
#include <vector>

#include "plan/routing/schedule.h"
#include "read/shop.h"

namespace blankwright {

/// The place of one order's operations in the calendar, among the others.
struct PlacedTimes {
  std::vector<const OperationFacts*> routing;  ///< the operations that it goes through
  OrderSchedule planned;
  std::optional<std::size_t> bath;       ///< the last one that its blanks are in; none also where it is planned alone
  std::optional<std::size_t> under_way;  ///< likewise of those under way
  /// When its blocks took their turn among those of all orders, of each bath to come and of what it does by itself.
  std::vector<std::vector<std::size_t>> bath_turns{}, own_turns{};
  bool alone = false;  ///< the calendar had no room for it: planned as if the shop had nothing else to do
};

}  // namespace blankwright
