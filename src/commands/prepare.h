#pragma once

#include <optional>

#include "commands/inputs.h"
#include "plan/order_plan.h"
#include "plan/times.h"

namespace blankwright {

/// An order read and planned.
struct Prepared {
  Order order;
  OrderPlan plan;
  OrderTimes times;
};

/// Reads and plans a job. `at` is where its calendar begins.
std::optional<Prepared> prepare(const Source& job, const Shop& shop, const Record& record, const ShopTime& time,
                                Diagnostics& out);

}  // namespace blankwright
