#include "plan/shop/shop_calendar.h"

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

const WorkCalendar& ShopCalendar::free_time_of(const std::string& who) const {
  const auto found = free_.find(who);
  return found == free_.end() ? hours_ : *found->second;
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
  std::map<std::string, std::vector<Interval>> promised;  // by person
  for (std::size_t i = 0; i < routing.size(); ++i) {
    const PlannedOperation& done = planned->operations.at(i);
    auto& of_person = promised[routing.at(i).who];
    const std::vector<Interval> hands_on = done.hands_on();
    of_person.insert(of_person.end(), hands_on.begin(), hands_on.end());
    const std::string& resource = routing.at(i).resource;
    if (resource.empty() || done.start == done.end) continue;
    // What soaks after its vacuum stays in the vessel between the two.
    const bool goes_on = i > 0 && routing.at(i - 1).resource == resource;
    add(taken_[resource], {goes_on ? planned->operations.at(i - 1).end : done.start, done.end});
  }
  for (const auto& [who, intervals] : promised) {
    free_[who] = std::make_unique<WorkCalendar>(free_time_of(who).without(intervals));
  }
  return planned;
}

}  // namespace blankwright
