#pragma once

#include <vector>

#include "plan/order/order_plan.h"
#include "read/caution.h"

namespace blankwright {

/// The work that a caution belongs to, in its order.
enum class CautionStep { sawing, drying, bath, cure, boring, turning, use };
CautionStep step_of(Caution caution);

/// The cautions that fit what the plan contains, in the order of the work: no vacuum without a bath, no activator
/// where the resin comes ready to use. They are general words and never all that a data sheet says.
std::vector<Caution> cautions_for(const Order& order, const Shop& shop, const OrderPlan& plan);

}  // namespace blankwright
