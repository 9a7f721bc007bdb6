#pragma once

#include "plan/order/cost.h"

namespace blankwright {

/// Are all prices of order and shop in one currency? To be asked before cost().
bool one_currency(const Order& order, const Shop& shop, Diagnostics& out);

/// Does the price that was agreed cover what a delivered piece costs?
void judge_cost(const Cost& cost, const Order& order, Diagnostics& out);

}  // namespace blankwright
