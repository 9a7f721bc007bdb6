#pragma once

#include <optional>
#include <span>
#include <vector>

#include "plan/shop/shop_plan.h"

// What baths and loads of a plan have of their operations' times.

namespace blankwright {

/// The load that each of a bath's operations cures; none of the others. A bath's loads are cured in their order.
std::vector<std::optional<std::size_t>> loads_of(const ShopPlan& plan, std::size_t bath,
                                                 std::span<const OperationFacts* const> routing,
                                                 std::span<const Operation> ops);
void note_load_times(ShopPlan& plan, std::span<const std::optional<std::size_t>> loads, const OrderSchedule& planned);

/// `planned`: each operation of the routing once.
void note_bath_times(PlannedBath& bath, std::span<const OperationFacts* const> routing,
                     const PlannedDurations& durations, const OrderSchedule& planned);

/// Resin that another bath leaves over is there when that is over.
void wait_for_resin(const ShopPlan& plan, const PlannedBath& bath, std::vector<Operation>& ops);
void note_age_of_resin(const ShopPlan& plan, PlannedBath& bath, const Zone& zone);

}  // namespace blankwright
