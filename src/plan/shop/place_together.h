#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "plan/shop/shop_calendar.h"

namespace blankwright {

/// What blanks of one order do by themselves right behind what they do with others: it may wait only so long.
struct Behind {
  std::size_t order = 0;
  std::vector<Operation> ops;  ///< at least one
  std::size_t after = 0;       ///< the last of the operations with others that they go through
};

struct PlacedTogether {
  OrderSchedule shared;
  std::vector<std::optional<OrderSchedule>> behind;  ///< of each; none where the calendar has no room for it
  std::vector<Instant> ready;                        ///< from when on each waits
};

/// How much later an operation begins than it may wait, that waits from `ready` on; 0 where it does not.
std::chrono::minutes too_late(const Operation& op, Instant ready, Instant begins);

/// Places operations that orders go through together, and behind them what each of them is tied to. Where that cannot
/// begin in time, what is before it ends later, as far as it may, a bounded number of times; where there is no such
/// end, as many of them as can be begin in time, and the others as early as they can.
tl::expected<PlacedTogether, Obstacle> place_together(ShopCalendar& calendar, std::vector<Operation> shared,
                                                      Instant from, const std::string& in_turn,
                                                      std::span<const Behind> behind);

}  // namespace blankwright
