#pragma once

#include <optional>
#include <string>
#include <vector>

#include "entries/blank_id.h"
#include "plan/order_plan.h"
#include "plan/times.h"
#include "read/template.h"

namespace blankwright {

/// What the sheets of an order are made from.
struct Dossier {
  const Order& order;
  const Shop& shop;
  const OrderPlan& plan;
  const OrderTimes& times;
  const Template& sheet_template;
  std::vector<BlankId> blanks;  ///< empty for a draft, which has none
  bool draft = false;
  Instant at;           ///< the moment of the compile
  std::string program;  ///< "Blankwright 0.1.0"
};

/// How many blanks the sheets speak of: those issued, or those that a draft would start.
inline int blank_count(const Dossier& d) { return d.draft ? d.plan.start.pieces : static_cast<int>(d.blanks.size()); }

}  // namespace blankwright
