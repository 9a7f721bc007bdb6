#pragma once

#include <optional>
#include <string>
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

/// The oven in which an operation is planned, the first of its runs where they are in several; that in which it was
/// where it is over. Empty where there is none.
std::string oven_of(const PlannedOperation& operation);
/// The same of an order's drying or cure.
std::string oven_of(const PlacedTimes& times, PlannedWork work);

}  // namespace blankwright
