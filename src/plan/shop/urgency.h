#pragma once

#include "plan/order/order_to_make.h"

namespace blankwright {

/// The day on which an order is due; the last of all where it has none.
inline std::chrono::sys_days due_of(const OrderToMake& order) {
  return order.due ? std::chrono::sys_days{order.due->value} : std::chrono::sys_days::max();
}

}  // namespace blankwright
