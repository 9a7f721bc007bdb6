#pragma once

#include <optional>

#include "plan/wood/start_count.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// Says on what the number of blanks to start rests; none that would be enough is an error.
void judge_start(const StartCountInput& in, const std::optional<Worked<StartCount>>& count, const Order& order,
                 const Shop& shop, Diagnostics& out);

}  // namespace blankwright
