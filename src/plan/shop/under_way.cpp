#include "plan/shop/under_way.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>
#include <utility>

#include "measure/elapsed.h"
#include "plan/shop/bath_times.h"

namespace blankwright {

std::size_t together(const std::vector<const OperationFacts*>& routing) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < routing.size(); ++i) {
    const auto& planned = routing.at(i)->planned;
    if (!planned || planned->value == PlannedWork::glue_setting) continue;
    count = i + 1;
  }
  return count;
}

std::size_t shared_operations(const OrderToMake& order, const std::vector<const OperationFacts*>& routing) {
  return order.durations.treated ? together(routing) : 0;
}

std::vector<BathUnderWay> baths_under_way(std::span<const OrderToMake> orders, const Shop& shop) {
  struct Found {
    int turn = 0;  ///< the oven, then baths, then wet blanks
    Instant since;
    BathUnderWay bath;
  };
  std::map<std::pair<bool, std::string>, Found> found;  // by what it is, a load or a bath, and its name
  for (std::size_t i = 0; i < orders.size(); ++i) {
    const std::size_t shared = shared_operations(orders[i], routing_of(orders[i].durations, shop));
    for (const BlankGroup& group : orders[i].under_way) {
      if (group.at.next >= shared) continue;
      const bool cures = group.at.begun && !group.load.empty() && group.at.next + 1 == shared;
      auto& one = found[{cures, cures ? group.load : group.bath}];
      const int turn = cures ? 0 : group.at.begun ? 1 : 2;
      const Instant since = group.at.since.value_or(Instant::max());
      const bool is_new = one.bath.shares.empty();
      one.turn = is_new ? turn : std::min(one.turn, turn);
      one.since = is_new ? since : std::min(one.since, since);
      one.bath.name = cures ? group.load : group.bath;
      if (is_new || one.bath.shares.back().order != i) one.bath.shares.push_back({i, {}});
      one.bath.shares.back().groups.push_back(group);
    }
  }
  std::vector<Found> in_turn;
  for (auto& [key, one] : found) in_turn.push_back(std::move(one));
  std::ranges::stable_sort(in_turn, {}, [](const Found& one) { return std::tuple{one.turn, one.since}; });
  std::vector<BathUnderWay> out;
  for (Found& one : in_turn) out.push_back(std::move(one.bath));
  return out;
}

std::map<PlaceApart, std::vector<GroupApart>> groups_apart(std::vector<OrderToMake>& orders, const Shop& shop) {
  std::map<PlaceApart, std::vector<GroupApart>> places;
  for (std::size_t i = 0; i < orders.size(); ++i) {
    const auto routing = routing_of(orders.at(i).durations, shop);
    for (auto* groups : {&orders.at(i).waiting_pieces, &orders.at(i).waiting_witnesses, &orders.at(i).under_way}) {
      for (BlankGroup& group : *groups) {
        if (!group.at.begun || group.at.next >= routing.size()) continue;
        const auto& work = routing.at(group.at.next)->planned;
        const bool dries = work && work->value == PlannedWork::drying;
        if (work && !dries && work->value != PlannedWork::cooling && work->value != PlannedWork::glue_setting) {
          continue;  // in a bath, or curing
        }
        const PlaceApart place{dries ? group.load : "", dries ? 0 : i, group.at.next, *group.at.begun};
        places[place].push_back({i, &group});
      }
    }
  }
  return places;
}

void count_from_beginning(std::vector<Operation>& operations, Instant now) {
  for (std::size_t i = 0; i < operations.size(); ++i) {
    Operation& op = operations.at(i);
    if (!op.begun) continue;
    op.ends_from = std::max(op.ends_from.value_or(*op.begun), later(*op.begun, op.length));
    const Duration gone = between(*op.begun, now);
    const Duration last_part = op.hands_on == HandsOn::at_both_ends ? op.hands_on_at_end : Duration{};
    op.length = std::max(op.length - gone, last_part);
    // What runs too long already cannot end in time; it ends as soon as somebody is there.
    if (op.longest) op.longest = *op.longest - gone;
    if (op.longest && *op.longest < op.length) op.longest.reset();
    op.may_run_long = true;
    for (Operation& later : operations) {
      if (later.lasts && later.lasts->of == i) later.lasts->unshared = later.lasts->unshared - gone;
    }
  }
}

void note_running(std::span<const Operation> ops, OrderSchedule& planned) {
  for (std::size_t i = 0; i < ops.size(); ++i) {
    if (!ops[i].begun) continue;
    PlannedOperation& op = planned.operations.at(i);
    op.start = *ops[i].begun;
    for (PlannedRun& run : op.runs) {
      run.at.from = *ops[i].begun;
      run.is = RunIs::running;
      run.least_end = ops[i].ends_from;
    }
  }
}

std::vector<Operation> as_placed(std::vector<Operation> ops, const OrderSchedule& planned) {
  for (std::size_t i = 0; i < ops.size(); ++i) {
    if (ops.at(i).day > 0) ops.at(i).pieces = planned.operations.at(i).runs.front().blanks;
  }
  return ops;
}

void count_blanks(std::span<const Operation> ops, OrderSchedule& planned) {
  for (std::size_t i = 0; i < ops.size(); ++i) {
    for (PlannedRun& run : planned.operations.at(i).runs) {
      if (run.blanks > 0) continue;
      run.blanks = ops[i].begun ? ops[i].pieces : blanks_of_go(std::array{ops[i].pieces}, 0, ops, i);
    }
  }
}

void add_past(const OrderToMake& order, PlacedTimes& times, Instant now) {
  auto& operations = times.planned.operations;
  for (std::size_t i = 0; i < order.past.size(); ++i) {
    const DoneBetween& past = order.past.at(i);
    if (!past.at) continue;
    PlannedOperation done{past.at->from, past.at->to, {}};
    PlannedRun& run = done.runs.emplace_back();
    run.at = *past.at;
    run.blanks = past.blanks;
    run.is = RunIs::past;
    add_runs(operations.at(i), done);
  }
  Instant next = now;
  for (std::size_t i = operations.size(); i-- > 0;) {
    PlannedOperation& op = operations.at(i);
    if (op.runs.empty()) op.start = op.end = next;
    next = std::min(next, op.start);
  }
  times.planned.finish = {};
  for (const PlannedOperation& op : operations) times.planned.finish = std::max(times.planned.finish, op.end);
  if (operations.empty()) times.planned.finish = now;
}

}  // namespace blankwright
