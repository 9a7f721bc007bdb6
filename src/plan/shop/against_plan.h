#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"

namespace blankwright {

/// Blanks of an order that wait longer for what is next than it lets them.
struct BrokenWait {
  std::size_t step = 0;  ///< of the order's routing, what they wait for
  int blanks = 0;
  Instant since;            ///< the first of them
  bool is_to_come = false;  ///< what goes on with it ends then
  Instant start;            ///< when it is planned to begin
};

/// By what was entered and by the plan.
std::vector<BrokenWait> broken_waits(const OrderToMake& order, const PlacedTimes& times);

/// Tells of them. Such a wait fails nothing: what is to be done with them is for people to say.
void tell_broken_waits(const OrderToMake& order, const PlacedTimes& times, const Zone& zone, Diagnostics& said);

/// Tells where the last one of several loads of the oven waits longer than its operation lets it; `bath`: as sheets
/// or entries name it.
void tell_load_waits(std::string_view bath, std::span<const OperationFacts* const> routing,
                     std::span<const Operation> ops, const OrderSchedule& planned, Diagnostics& said);

/// Tells where what an order does by itself begins longer after what it did with others, which ends then, than it may
/// wait.
void tell_wait_behind(const OrderToMake& order, const OperationFacts& facts, const Operation& op, Instant ends,
                      Instant begins, const Zone& zone, Diagnostics& said);

/// Tells what goes on longer than it may last, since nobody is there to end it in time.
void tell_runs_too_long(const OrderToMake& order, const PlacedTimes& times, const Zone& zone, Diagnostics& said);

/// From when on nobody is there with what runs until then, counted from the plan's moment; none where somebody is.
std::optional<Instant> nobody_from(Instant until, const ShopTime& time);

/// When a vessel or an oven is out of order, now or later, while something runs in it; none where it is not.
std::optional<Interval> outage_meanwhile(const std::string& resource, const Interval& run, const ShopTime& time);

/// What an order that is late waits for, until when: an outage of what it still needs, that ends after its due date
/// or right before what needs it; the longest of them. None where there is no such thing.
struct OutageAwaited {
  std::string resource;
  Instant until;
};
std::optional<OutageAwaited> outage_awaited(const PlacedTimes& times, Instant due, const ShopTime& time);

/// Tells of what runs that it may not run while nobody is there, and nobody will be before it may end; and that its
/// vessel or oven is out of order meanwhile. `ops` as they are scheduled.
void tell_of_running(const OrderToMake& order, std::span<const Operation> ops, const OrderSchedule& planned,
                     const ShopTime& time, Diagnostics& said);

/// Tells that something was entered of a time after the plan's moment: what is over then is planned no more.
void tell_later_entries(const OrderToMake& order, Instant now, const Zone& zone, Diagnostics& said);

}  // namespace blankwright
