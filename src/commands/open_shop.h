#pragma once

#include <string>
#include <vector>

#include "commands/at_register.h"
#include "commands/compile_steps.h"

namespace blankwright {

/// The shop's open orders as their jobs stand in the register, planned together from a moment, with their times.
struct OpenShop {
  PlannedTogether planned;
  std::vector<OrderTimes> times;  ///< of each
};
OpenShop plan_open_shop(const RegisterPlace& register_place, const Shop& shop, Instant at, Diagnostics& out);

/// How many blanks of an order an operation of its routing is still to be done to.
int blanks_before(std::size_t operation, const OrderToMake& order);

}  // namespace blankwright
