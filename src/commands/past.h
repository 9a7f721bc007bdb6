#pragma once

#include <optional>
#include <string>
#include <vector>

#include "entries/record.h"
#include "read/shop.h"
#include "register/register.h"

namespace blankwright {

/// What a register has to tell of the shop as a whole. Made once for a run.
struct ShopPast {
  std::optional<YieldCounted> yield;
  std::optional<AxisSpread> axis;
  std::vector<UptakeSeen> uptake;
  std::optional<BondSeen> bond;
};

/// Reads all blanks of the register once. The bond's strength is the force that a stud came out with over its surface
/// in the wood, by the plan of its order.
ShopPast past_of(Register& known, const Shop& shop);

/// What a plan of that order may know.
Record record_of(Register& known, const ShopPast& past, const std::string& order_id);

}  // namespace blankwright
