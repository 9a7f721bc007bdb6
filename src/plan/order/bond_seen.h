#pragma once

#include <optional>

#include "entries/record.h"
#include "plan/order/order_plan.h"

namespace blankwright {

/// What a pulled stud tells of the bond: the force that it came out with over its surface in the wood, and over the
/// bore's.
BondSeen bond_seen(Force pulled, const Order& order, const OrderPlan& plan);

/// The same of one more: the weakest counts, and how many were pulled.
BondSeen with_one_more(const std::optional<BondSeen>& before, const BondSeen& seen);

}  // namespace blankwright
