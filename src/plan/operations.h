#pragma once

#include <vector>

#include "plan/schedule.h"
#include "read/shop.h"

namespace blankwright {

/// What the plan gives to operations that take their time from it. An order that is not treated has none of vacuum,
/// soak and cure.
struct PlannedDurations {
  bool treated = false;
  Duration drying{}, cooling{}, vacuum{}, soak{}, cure{}, glue_setting{};
};

/// How an operation is done this time.
struct OperationNeeds {
  int pieces = 0;                ///< it is done to so many
  int drying_loads = 1;          ///< one after the other in one oven
  int cure_loads = 1;            ///< likewise
  std::string vessel{}, oven{};  ///< by name; empty where the shop has none
  bool oven_alone = false;       ///< may run while nobody is there
  bool pump_alone = false;
};

/// Is the operation done at all to such an order?
bool applies(const OperationFacts& facts, const PlannedDurations& planned);

/// The operation with its length, by `fixed` and `per_piece` or by the plan: once, or once for each load of the oven.
/// Only the first load is held to the longest wait: the others wait for the oven.
std::vector<Operation> runs_of(const OperationFacts& facts, const PlannedDurations& planned,
                               const OperationNeeds& needs);

/// Hands-on time of all operations that such an order goes through, for what it costs.
Duration hands_on_total(const Shop& shop, const PlannedDurations& planned, int pieces);

}  // namespace blankwright
