#pragma once

#include <optional>
#include <string>
#include <vector>

#include "entries/record.h"
#include "plan/axis_error.h"
#include "plan/blank_size.h"
#include "plan/bore.h"
#include "plan/centring.h"
#include "plan/finished_form.h"
#include "plan/start_count.h"
#include "plan/stud.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// Everything worked out for one order, as if it were the only one.
struct OrderPlan {
  std::string species;  ///< as the table names it
  FinishedForm form;
  FormFigures size{};
  Stud stud{};
  BoreDrill bore{};
  AxisError axis{};
  BlankSize blank{};
  Centring centring{};
  BoreDepth depth{};
  BoreWalls walls{};
  StartCount start{};
  Length swing{};                   ///< of the squared blank on the stud, at its tail: a√2 + 2 (e + l t)
  RotationalSpeed speed_ceiling{};  ///< while the blank is square
  Figures figures{};
  std::vector<Step> working{};  ///< of every figure, in the order of the calculation
};

/// Plans one order. What does not work out is said in `out`; after an error there is no plan.
std::optional<OrderPlan> plan_order(const Order& order, const Shop& shop, const Record& record, Diagnostics& out);

/// How fast a blank of that swing may turn at most: D × n = 152,400 mm/min (6000 in/min), the lower end of what is
/// commonly advised. Start slower; never above what lathe, chuck or mandrel are rated for. Common practice, no
/// source: quoted as D[in] × rpm = 6000 to 9000 among turners.
Worked<RotationalSpeed> speed_ceiling(Length swing);

}  // namespace blankwright
