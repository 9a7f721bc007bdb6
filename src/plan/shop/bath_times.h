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
void note_load_times(ShopPlan& plan, std::span<const std::optional<std::size_t>> loads, const OrderSchedule& planned,
                     std::span<const OrderToMake> orders);

/// How many blanks of one of several shares go through operation `i`. Where it is done in several goes, as in loads
/// of the drying oven or day by day, these take the blanks as the shares have them, a day as many as it may, a load
/// about as many as another.
int blanks_of_go(std::span<const int> of_shares, std::size_t share, std::span<const Operation> ops, std::size_t i);

/// `planned`: each operation of the routing once.
void note_bath_times(PlannedBath& bath, std::span<const OperationFacts* const> routing,
                     const PlannedDurations& durations, const OrderSchedule& planned);

/// Resin that another bath leaves over is there when that is over.
void wait_for_resin(const ShopPlan& plan, const PlannedBath& bath, std::vector<Operation>& ops);
void note_age_of_resin(const ShopPlan& plan, PlannedBath& bath, const Zone& zone);

}  // namespace blankwright
