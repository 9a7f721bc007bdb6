#include "plan/shop_calendar.h"

#include <algorithm>

namespace blankwright {
namespace {

/// Puts an interval among others that are in order and apart; those that it touches become one with it.
void add(std::vector<Interval>& all, Interval one) {
  const auto first = std::ranges::lower_bound(all, one.from, {}, &Interval::to);
  auto last = first;
  for (; last != all.end() && last->from <= one.to; ++last) {
    one.from = std::min(one.from, last->from);
    one.to = std::max(one.to, last->to);
  }
  all.insert(all.erase(first, last), one);
}

}  // namespace

const WorkCalendar& ShopCalendar::free_time_of(const std::string& who) {
  const auto promised = hands_on_.find(who);
  if (promised == hands_on_.end()) return hours_;
  auto& free = free_[who];
  if (free == nullptr) free = std::make_unique<WorkCalendar>(hours_.without(promised->second));
  return *free;
}

tl::expected<OrderSchedule, Obstacle> ShopCalendar::place(std::vector<Operation> routing, Instant from,
                                                          const std::string& in_turn) {
  for (Operation& op : routing) {
    op.free = &free_time_of(op.who);
    if (op.resource.empty()) continue;
    op.taken = taken_[op.resource];
    if (op.resource == in_turn && !op.taken.empty()) {
      op.taken = {{hours_.covered().from, op.taken.back().to}};
    }
  }
  auto planned = schedule(routing, hours_, from);
  if (!planned) return planned;
  for (std::size_t i = 0; i < routing.size(); ++i) {
    const PlannedOperation& done = planned->operations.at(i);
    for (const Interval& at : done.hands_on) add(hands_on_[routing.at(i).who], at);
    if (!done.hands_on.empty()) free_.erase(routing.at(i).who);
    const std::string& resource = routing.at(i).resource;
    if (resource.empty() || done.start == done.end) continue;
    // What soaks after its vacuum stays in the vessel between the two.
    const bool goes_on = i > 0 && routing.at(i - 1).resource == resource;
    add(taken_[resource], {goes_on ? planned->operations.at(i - 1).end : done.start, done.end});
  }
  return planned;
}

}  // namespace blankwright
