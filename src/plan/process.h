#pragma once

#include <optional>

#include "entries/record.h"
#include "plan/bath.h"
#include "plan/cure.h"
#include "plan/drying.h"
#include "plan/operations.h"
#include "plan/uptake.h"
#include "plan/vacuum.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

struct OrderPlan;

/// What is drawn into an order's blanks and how, worked out for one nominal blank. Parts for which the shop file
/// lacks the means are not known.
struct Process {
  Drying drying{};
  const ResinFacts* resin = nullptr;  ///< null: nothing is drawn in
  std::optional<Vacuum> vacuum{};
  std::optional<Uptake> uptake{};
  std::optional<Length> measured_section, measured_length;  ///< the mean of those that were measured dry
  std::optional<Cure> cure{};
  int bath_room = 0;  ///< blanks of this kind that the vessel which takes most of them holds at once
};

/// Plans drying, vacuum, uptake and cure of an order whose blank is known; figures and working go to the plan. Once
/// blanks of the order were weighed dry, their mean mass and size take the place of the nominal blank's. A
/// blank that is given squared has been through all this, and has none of it. False when something is wrong, which
/// has been said.
bool plan_process(OrderPlan& plan, const Order& order, const Shop& shop, const Record& record, Diagnostics& out);

/// One of the order's blanks as it goes into a bath; its uptake is known.
BathBlanks bath_blank(const OrderPlan& plan);

/// What the process asks of the operations that take their time from the plan.
PlannedDurations planned_durations(const Process& process, const Shop& shop);

/// Is the shop file's process consistent in itself? Said once for a run, before any order.
bool judge_shop(const Shop& shop, Diagnostics& out);

}  // namespace blankwright
