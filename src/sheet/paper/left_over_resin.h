#pragma once

#include <optional>

#include "plan/shop/shop_plan.h"

namespace blankwright {

/// The last day on which the resin left over from a bath may be used: the day from which it ages and the data sheet's
/// storage life, in whole days. None where the shop's file does not give that.
std::optional<Date> use_by(const PlannedBath& bath);

}  // namespace blankwright
