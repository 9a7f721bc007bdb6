#pragma once

#include <functional>
#include <optional>

#include "commands/inputs.h"
#include "plan/order/order_plan.h"

namespace blankwright {

/// An order read and planned.
struct Prepared {
  Order order;
  OrderPlan plan;
};

/// What the register knows of an order, by the order's id.
using Records = std::function<Record(const std::string& order_id)>;

/// The records of a register; empty ones where there is no register yet. For one thread. The shop outlives them.
Records records_in(const std::string& register_file, const Shop& shop);

/// Reads and plans a job. The shop outlives the answer.
std::optional<Prepared> prepare(const Source& job, const Shop& shop, const Records& records, Diagnostics& out);

}  // namespace blankwright
