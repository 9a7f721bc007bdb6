#pragma once

#include <functional>
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

/// What the register knows of an order, by the order's id.
using Records = std::function<Record(const std::string& order_id)>;

/// The records of a register; empty ones where there is no register yet. For one thread.
Records records_in(const std::string& register_file);

/// Reads and plans a job.
std::optional<Prepared> prepare(const Source& job, const Shop& shop, const Records& records, const ShopTime& time,
                                Diagnostics& out);

}  // namespace blankwright
