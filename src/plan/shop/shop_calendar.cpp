#include "plan/shop/shop_calendar.h"

#include <algorithm>
#include <span>
#include <utility>

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

/// Leaves an interval out of others that are in order and apart.
void remove(std::vector<Interval>& all, Interval one) {
  std::vector<Interval> left;
  for (const Interval& interval : all) {
    if (interval.from < one.from) left.push_back({interval.from, std::min(interval.to, one.from)});
    if (interval.to > one.to) left.push_back({std::max(interval.from, one.to), interval.to});
  }
  all = std::move(left);
}

void set_pieces(Operation& op, int pieces) {
  op.length = op.length - (op.pieces - pieces) * op.per_piece;
  op.pieces = pieces;
}

/// The days of what operation `first` of a routing begins, each with all that is done to its pieces; none where
/// a part of them goes on by itself.
std::vector<std::span<const Operation>> days_from(std::span<const Operation> routing, std::size_t first) {
  std::vector<std::span<const Operation>> days;
  for (std::size_t i = first; i < routing.size() && routing[i].step == routing[first].step;) {
    if (i > first && !routing[i].on_a_later_day) break;
    std::size_t end = i + 1;
    while (end < routing.size() && routing[end].day == routing[i].day && routing[end].longest_wait) ++end;
    days.push_back(routing.subspan(i, end - i));
    if (std::ranges::any_of(days.back(), [&](const Operation& op) { return op.pieces != routing[i].pieces; }))
      return {};
    i = end;
  }
  return days;
}

/// Operation `i` to so many pieces on its first day, and to as many as may be on each day after it.
std::vector<Operation> with_fewer_first(std::vector<Operation> routing, std::size_t i, int pieces) {
  int left = 0;
  const auto days = days_from(routing, i);
  for (const auto& day : days) left += day.front().pieces;
  std::size_t at = i;
  for (const auto& day : days) {
    const int of_day = at == i ? pieces : std::min(left, day.front().most_a_day);
    for (std::size_t end = at + day.size(); at < end; ++at) set_pieces(routing.at(at), of_day);
    left -= of_day;
  }
  return routing;
}

std::vector<Interval> hands_on(const PlannedRun& run) { return {run.hands_on.begin(), run.hands_on.end()}; }

}  // namespace

ShopCalendar::ShopCalendar(const ShopTime& time) : time_{std::make_shared<ShopTime>(time)} {
  for (const auto& [who, free] : time.people) set_free(who, free);
}

ShopCalendar ShopCalendar::within(Interval span) const {
  ShopTime time = *time_;
  time.calendar = time.calendar.within(span);
  time.people.clear();
  ShopCalendar out{time};
  for (const auto& [who, free] : free_) out.set_free(who, free->within(span));
  out.taken_ = taken_;
  out.pieces_of_day_ = pieces_of_day_;
  return out;
}

void ShopCalendar::set_free(const std::string& who, WorkCalendar free) {
  free_.insert_or_assign(who, std::make_shared<WorkCalendar>(std::move(free)));
}

const WorkCalendar& ShopCalendar::free_time_of(const std::string& who) const {
  const auto found = free_.find(who);
  return found == free_.end() ? time_->calendar : *found->second;
}

std::vector<Interval> ShopCalendar::taken_of(const std::string& resource, const std::string& in_turn) const {
  std::vector<Interval> taken;
  if (const auto found = taken_.find(resource); found != taken_.end()) taken = found->second;
  if (resource == in_turn && !taken.empty()) taken = {{time_->calendar.covered().from, taken.back().to}};
  if (const auto found = time_->outages.find(resource); found != time_->outages.end()) {
    for (const Interval& outage : found->second) add(taken, outage);
  }
  return taken;
}

std::vector<Interval> ShopCalendar::full_days(const Operation& op) const {
  std::vector<Interval> full;
  const auto found = pieces_of_day_.find(op.name);
  if (op.most_a_day == 0 || found == pieces_of_day_.end()) return full;
  for (const auto& [day, pieces] : found->second) {
    if (pieces + op.pieces <= op.most_a_day) continue;
    const Instant begins = instant_of(time_->working.zone, day, std::chrono::minutes{0});
    add(full, {begins, time_->calendar.next_day(begins)});
  }
  return full;
}

std::set<int> ShopCalendar::left_of_days(std::span<const Operation> routing, std::size_t i) const {
  const Operation& first = routing[i];
  const auto found = pieces_of_day_.find(first.name);
  if (first.most_a_day == 0 || first.on_a_later_day || found == pieces_of_day_.end()) return {};
  int later = -first.most_a_day;  // that the days after the first one can take
  int pieces = 0;
  for (const auto& day : days_from(routing, i)) {
    later += day.front().most_a_day;
    pieces += day.front().pieces;
  }
  std::set<int> left;
  for (const auto& [day, taken] : found->second) {
    const int free = first.most_a_day - taken;
    if (pieces - later <= free && free < first.pieces) left.insert(free);
  }
  return left;
}

ShopCalendar::Round ShopCalendar::round_promises(std::vector<Operation> routing, const std::string& in_turn) const {
  Round round{std::move(routing), {}};
  for (Operation& op : round.routing) {
    for (Worker& hand : op.hands) hand.free = &free_time_of(hand.name);
    op.taken = op.resource.empty() ? std::vector<Interval>{} : taken_of(op.resource, in_turn);
    if (op.hands_on == HandsOn::throughout && !op.taken.empty()) {  // it pauses while its machine is not to be had
      for (Worker& hand : op.hands) hand.free = &round.on_machine.emplace_back(hand.free->without(op.taken));
      op.taken.clear();
    }
    for (const Interval& day : full_days(op)) add(op.taken, day);
  }
  return round;
}

void ShopCalendar::promise(const Operation& op, const PlannedRun& run) {
  if (op.most_a_day > 0) pieces_of_day_[op.name][date_of(time_->working.zone, run.at.from)] += op.pieces;
  if (op.resource.empty()) return;
  if (op.hands_on == HandsOn::throughout) {
    for (const Interval& at : run.hands_on) add(taken_[op.resource], at);
  } else if (run.at.from < run.at.to) {
    add(taken_[op.resource], run.at);
  }
}

/// Operations with their times, and nothing promised for them yet.
struct ShopCalendar::Placed {
  Round round;
  OrderSchedule planned;
};

tl::expected<ShopCalendar::Placed, Obstacle> ShopCalendar::placed(std::vector<Operation> routing, Instant from,
                                                                  const std::string& in_turn) const {
  Round round = round_promises(std::move(routing), in_turn);
  auto planned = schedule(round.routing, time_->calendar, from);
  if (!planned) return tl::unexpected{planned.error()};
  for (std::size_t i = 0; i < round.routing.size(); ++i) {
    if (round.routing.at(i).day > 0) planned->operations.at(i).runs.front().blanks = round.routing.at(i).pieces;
  }
  return Placed{std::move(round), std::move(*planned)};
}

tl::expected<OrderSchedule, Obstacle> ShopCalendar::place(std::vector<Operation> routing, Instant from,
                                                          const std::string& in_turn) {
  if (from > time_->calendar.covered().to) return tl::unexpected{Obstacle{Impossible::beyond_horizon, 0}};
  auto best = placed(routing, from, in_turn);
  const auto try_other = [&](std::vector<Operation> other) {
    auto now = placed(other, from, in_turn);
    if (!now || (best && best->planned.finish <= now->planned.finish)) return;
    best = std::move(now);
    routing = std::move(other);
  };
  std::vector<std::vector<Operation>> in_others;
  for (const std::string& oven : further_ovens(routing)) in_others.push_back(in_oven(oven, routing));
  for (std::vector<Operation>& other : in_others) try_other(std::move(other));
  for (std::size_t i = 0; i < routing.size(); ++i) {
    for (const int pieces : left_of_days(routing, i)) try_other(with_fewer_first(routing, i, pieces));
  }
  if (!best) return tl::unexpected{best.error()};
  promise(*best);
  return std::move(best->planned);
}

void ShopCalendar::promise(const Placed& placed) {
  std::map<std::string, std::vector<Interval>> promised;  // by person
  for (std::size_t i = 0; i < placed.round.routing.size(); ++i) {
    const Operation& op = placed.round.routing.at(i);
    const PlannedRun& run = placed.planned.operations.at(i).runs.front();
    for (const HandsOnTime& at : run.hands_on) promised[at.who].push_back(at);
    promise(op, run);
    // What soaks after its vacuum stays in the vessel between the two.
    const bool goes_on = i > 0 && !op.resource.empty() && placed.round.routing.at(i - 1).resource == op.resource &&
                         op.hands_on != HandsOn::throughout;
    if (goes_on && run.at.from < run.at.to)
      add(taken_[op.resource], {placed.planned.operations.at(i - 1).end, run.at.from});
  }
  for (const auto& [who, intervals] : promised) set_free(who, free_time_of(who).without(intervals));
}

void ShopCalendar::count_done(const OperationFacts& facts, const DoneBetween& past) {
  if (!facts.most_a_day) return;
  for (const Instant at : past.each) ++pieces_of_day_[facts.name.value][date_of(time_->working.zone, at)];
}

void ShopCalendar::take_back(const PlacedTimes& times) {
  std::map<std::string, std::vector<Interval>> given_back;  // by person
  for (std::size_t step = 0; step < times.routing.size(); ++step) {
    const OperationFacts& facts = *times.routing.at(step);
    for (const PlannedRun& run : times.planned.operations.at(step).runs) {
      if (run.is == RunIs::past) continue;
      for (const HandsOnTime& at : run.hands_on) given_back[at.who].push_back(at);
      if (facts.most_a_day) pieces_of_day_[facts.name.value][date_of(time_->working.zone, run.at.from)] -= run.blanks;
      if (run.resource.empty()) continue;
      const bool pauses = facts.hands_on.value == HandsOnWhen::throughout;
      for (const Interval& at : pauses ? hands_on(run) : std::vector<Interval>{run.at})
        remove(taken_[run.resource], at);
      if (pauses || step == 0) continue;
      for (const PlannedRun& before : times.planned.operations.at(step - 1).runs) {
        if (before.resource == run.resource && before.bath == run.bath && before.at.to < run.at.from)
          remove(taken_[run.resource], {before.at.to, run.at.from});
      }
    }
  }
  for (const auto& [who, intervals] : given_back) set_free(who, free_time_of(who).with(intervals));
}

}  // namespace blankwright
