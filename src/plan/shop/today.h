#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "plan/shop/plan_shop.h"
#include "plan/shop/task.h"

namespace blankwright {

/// An order that is late, and what it waits for longest.
struct LateOrder {
  std::string order;
  std::chrono::minutes by{};
  std::optional<Queue> queue;  ///< none where it waits for nothing
};

/// Something that runs by the clock.
struct RunningNow {
  Task task;
  std::optional<Instant> nobody_from{};   ///< nobody is there from then on, and it may not run alone until its end
  std::optional<Instant> out_of_order{};  ///< its vessel or oven, from then on
};

/// Something that has to be begun before everybody leaves, since it goes on by itself until the next day of work.
struct BeforeLeaving {
  Task task;
  std::vector<std::string> later;  ///< orders whose finish moves by a day or more where it is not
};

/// What is on in the shop on one day of work.
struct Today {
  Instant from;                     ///< now, or the beginning of the next day of work where none is left of this one
  Instant to;                       ///< the end of that day's work
  std::vector<LateOrder> late;      ///< the latest first
  std::vector<RunningNow> running;  ///< in the order of their ends
  Instant hands_from;       ///< the day of `hands`: that of `from`, or where nothing is left of it the next one
  std::vector<Task> hands;  ///< what somebody does by that day's end, by time
  std::vector<BeforeLeaving> before_leaving;
  std::vector<Task> next;  ///< of each vessel and oven, what it is used for next
};

/// A blank that stands before an operation, or is at it, and is on HOLD.
struct BlankOnHold {
  std::size_t step = 0;    ///< of its order's routing
  std::string bath, load;  ///< that it was in last, as entries name them
};

/// An order of a plan with its times.
struct OrderWithTimes {
  std::string id;
  const OrderTimes* times = nullptr;
  std::vector<BlankOnHold> held{};
};

/// What a plan has for the day of its moment. `if_nothing_today`: the same orders planned from the next day of work
/// on, to tell what it costs to begin nothing; as many as `orders`.
Today today_of(std::span<const OrderWithTimes> orders, const ShopPlan& if_nothing_today, const Shop& shop,
               const ShopTime& time);

/// The beginning of the day of work after the one that `time` is in, or that comes next.
std::optional<Instant> next_day_of_work(const ShopTime& time);

}  // namespace blankwright
