#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "diagnose/saying.h"
#include "plan/shop/placed_times.h"

namespace blankwright {

/// What stands before an order in a queue.
struct StandsBefore {
  Interval at;                      ///< when it has what is queued for
  std::vector<std::string> orders;  ///< whose it is
  std::string operation;
  std::string name{};                       ///< of the bath or the load, as entries name it
  std::optional<std::size_t> bath, load{};  ///< of the run's, from 0
};

/// What an order waits for before an operation that is still to begin.
struct Queue {
  std::string resource;   ///< vessel, oven or machine; a person where it is one's hands
  std::string operation;  ///< of the order
  Interval wait;          ///< from when its blanks are there to the beginning
  /// What has that vessel, oven, machine or person last before. None where nothing has it: then it waits for working
  /// hours, or for the end of an outage.
  std::optional<StandsBefore> behind{};
};

/// An order with its times, among all that are planned together.
struct OrderPlaced {
  std::string id;
  const PlacedTimes* times = nullptr;
};

/// The longest of an order's waits in which something else has what it needs; else the longest of all; none where it
/// never waits. `now`: the plan's moment.
std::optional<Queue> queue_of(const OrderPlaced& order, std::span<const OrderPlaced> all, Instant now);

/// "bath 2 of TA-0147, TA-0151"
Saying in_words(const StandsBefore& before);

}  // namespace blankwright
