#pragma once

#include <span>
#include <vector>

#include "plan/routing/schedule.h"
#include "read/shop.h"

namespace blankwright {

/// What the plan gives to operations that take their time from it. An order that is not treated has none of vacuum,
/// soak and cure.
struct PlannedDurations {
  bool treated = false;
  bool witnessed = false;  ///< some of the blanks are witnesses
  Duration drying{}, cooling{}, vacuum{}, soak{}, cure{}, glue_setting{};
  double soak_share = 0;  ///< of the vacuum beyond the pump-down, as it is in the calendar; 0: of the planned hold
  Duration pump_down{};
};

/// How an operation is done this time.
struct OperationNeeds {
  int pieces = 0;  ///< it is done to so many, witnesses among them
  int witnesses = 0;
  int drying_loads = 1;          ///< one after the other in one oven
  int cure_loads = 1;            ///< likewise
  std::string vessel{}, oven{};  ///< by name; empty where the shop has none
  bool drying_alone = false;     ///< the oven may run while nobody is there
  bool cure_alone = false;
  bool pump_alone = false;
};

/// Is the operation done at all to such an order?
bool applies(const OperationFacts& facts, const PlannedDurations& planned);

/// Operations with their lengths, by `fixed` and `per_piece` or by the plan; in the oven once for each load, and what
/// is dried cools before the next load is. A further load is to go in within the operation's longest wait after the
/// one before it came out. Witnesses are left out of all that comes after what is done to them alone.
std::vector<Operation> operations(std::span<const OperationFacts* const> routing, const PlannedDurations& planned,
                                  const OperationNeeds& needs);

/// Hands-on time of all operations that such an order goes through, for what it costs.
Duration hands_on_total(const Shop& shop, const PlannedDurations& planned, int pieces, int witnesses);

}  // namespace blankwright
