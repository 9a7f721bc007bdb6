#pragma once

#include <map>
#include <optional>
#include <string>

#include "entries/record.h"
#include "plan/order/order_plan.h"
#include "plan/part/stud_stock.h"

namespace blankwright {

/// What an order still takes of wood and studs, and what of its resin is poured.
struct OrderMaterial {
  std::string wood;                      ///< species and condition
  Length section, length;                ///< of a sawn blank
  int to_saw = 0;                        ///< blanks that no wood was sawn for yet, witnesses among them
  std::optional<int> on_boards;          ///< of these, how many its boards give; none where it names no boards
  StudsWanted studs;                     ///< for pieces that have none yet and may still come out good
  std::map<std::string, Volume> poured;  ///< into baths that are not under vacuum yet, by their names
};

/// The same by an order's plan and by what the record tells. Wood that is there already, as a blank that the job
/// gives, needs no sawing.
OrderMaterial order_material(const Order& order, const OrderPlan& plan, const Record& record);

}  // namespace blankwright
