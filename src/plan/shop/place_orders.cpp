#include "plan/shop/place_orders.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>

#include "diagnose/failure.h"
#include "diagnose/problem.h"
#include "diagnose/says_shop.h"
#include "measure/elapsed.h"
#include "measure/quantity_text.h"
#include "plan/shop/against_plan.h"
#include "plan/shop/batch.h"
#include "plan/shop/bath_times.h"
#include "plan/shop/out_of_baths.h"
#include "plan/shop/place_together.h"
#include "plan/shop/plan_alone.h"
#include "plan/shop/shop_calendar.h"
#include "plan/shop/under_way.h"

namespace blankwright {
namespace {

/// Plans all orders of a run, one batch after the other.
class Planner {
 public:
  Planner(std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time, ShopPlan& plan)
      : orders_{orders.begin(), orders.end()},
        shop_{shop},
        time_{time},
        plan_{plan},
        calendar_{time},
        left_(orders.size()),
        out_of_baths_(orders.size()),
        not_placed_(orders.size()) {
    plan_.orders.resize(orders.size());
    for (std::size_t i = 0; i < orders.size(); ++i) begin(i);
  }

  void run(std::span<const Turn> turns) {
    for (const auto& [place, groups] : groups_apart(orders_, shop_)) place_apart(place.step, groups);
    for (const PlannedBath& bath : plan_.baths) {
      for (const BlankShare& share : bath.shares) ++left_.at(share.order);
    }
    for (std::size_t k = 0; k < plan_.under_way.size(); ++k) place_under_way(k);
    std::vector<std::size_t> by_date(orders_.size());
    std::iota(by_date.begin(), by_date.end(), std::size_t{0});
    std::ranges::stable_sort(by_date, {}, [&](std::size_t i) { return std::pair{due_of(i), orders_[i].id}; });
    for (const std::size_t i : by_date) {
      const std::size_t shared = shared_of(i);
      place_rest(i, shared, time_.at, rest_of(i, shared, cured_of(orders_[i], shared, shop_)));
    }
    for (const Turn& turn : turns) {
      if (turn.bath) {
        place_bath(*turn.bath);
      } else {
        place_without_bath(turn.order);
      }
    }
    plan_.promised = std::move(calendar_);
  }

 private:
  std::chrono::sys_days due_of(std::size_t i) const {
    return orders_[i].due ? std::chrono::sys_days{orders_[i].due->value} : std::chrono::sys_days::max();
  }

  PlacedTimes& times(std::size_t i) { return *plan_.orders.at(i).times; }
  std::size_t shared_of(std::size_t i) { return shared_operations(orders_[i], times(i).routing); }

  void begin(std::size_t i) {
    PlacedTimes times;
    times.routing = routing_of(orders_[i].durations, shop_);
    times.planned.operations.resize(times.routing.size());
    for (std::size_t step = 0; step < orders_[i].past.size(); ++step)
      calendar_.count_done(*times.routing.at(step), orders_[i].past.at(step));
    plan_.orders.at(i).times = std::move(times);
  }

  /// An order that has no bath to come.
  void place_without_bath(std::size_t i) {
    if (times(i).under_way) {
      place_behind_baths(i);
    } else {
      place_rest(i, 0, time_.at, rest_of(i, 0, not_cured_of(orders_[i], 0, shop_)));
    }
    finish(i);
  }

  /// What goes on apart from the others' work: each by itself, from its beginning, and with what is tied to it.
  void place_apart(std::size_t step, std::span<const GroupApart> groups) {
    const std::span routing = std::span{times(groups.front().order).routing}.subspan(step);
    const std::size_t steps = 1 + tied_to_all(step, groups);
    const auto ops = operations(routing.first(steps), batch_of(groups, step, orders_, shop_));
    const auto planned = placed(ops, time_.at);
    std::map<std::size_t, int> blanks;  // by order
    std::optional<BlankId> lowest = groups.front().group->lowest;
    for (const auto& [i, group] : groups) {
      blanks[i] += group->pieces + group->witnesses;
      lowest = std::min(lowest, group->lowest);
    }
    for (const auto& [i, count] : blanks) {
      if (!planned) not_placed_.at(i) = true;
      if (!planned) continue;
      OrderSchedule own = *planned;
      for (PlannedOperation& done : own.operations) {
        for (PlannedRun& run : done.runs) {
          run.blanks = count;
          if (!ops.front().resource.empty()) run.name = groups.front().group->load;
          if (step < shared_of(i)) run.lowest = lowest;
        }
      }
      tell_of_running(orders_[i], ops, own, time_, plan_.orders.at(i).said);
      add(i, step, ops, std::move(own));
    }
    for (const auto& [i, group] : groups) {
      group->at.next = step + steps;
      group->at.begun.reset();
      if (planned) group->free_from = planned->finish;
    }
  }

  /// How many operations are tied to what goes on with all of these.
  std::size_t tied_to_all(std::size_t step, std::span<const GroupApart> groups) {
    const std::span routing = std::span{times(groups.front().order).routing}.subspan(step + 1);
    std::size_t count = tied(routing);
    for (const auto& [i, group] : groups) {
      const std::span other = std::span{times(i).routing}.subspan(step + 1);
      count = std::min(count, static_cast<std::size_t>(std::ranges::mismatch(routing, other).in1 - routing.begin()));
    }
    return count;
  }

  /// Blanks in a bath, wet or in the oven go on up to the cure.
  void place_under_way(std::size_t number) {
    const BathUnderWay& bath = plan_.under_way.at(number);
    const Batch batch = batch_of(bath, orders_, shop_);
    const std::span routing = std::span{batch.routing}.first(together(batch.routing));
    const auto ops = operations(routing, batch);
    if (ops.empty()) return;
    GoingOn going;
    for (const BathUnderWay::Share& share : bath.shares) {
      const auto out = out_of(share, {orders_[share.order], shop_, times(share.order).routing}, routing, ops);
      put_behind(share.order, out, going);
    }
    const auto planned = placed_together(ops, {}, going.tied);
    for (const BathUnderWay::Share& share : bath.shares) {
      if (!planned) not_placed_.at(share.order) = true;
      if (!planned) continue;
      times(share.order).under_way = number;
      add_own(share.order, routing, ops, planned->shared, [&](PlannedRun& run, std::size_t i) {
        run.name = bath.name;
        run.blanks = blanks_of_run(bath, share, routing, ops, i);
      });
      Diagnostics& said = plan_.orders.at(share.order).said;
      tell_load_waits(bath.name, routing, ops, planned->shared, said);
      tell_of_running(orders_[share.order], ops, planned->shared, time_, said);
    }
    if (planned) add_behind(going, *planned);
  }

  /// A bath's blanks go through the operations up to the cure; then the orders that are complete go on.
  void place_bath(std::size_t number) {
    PlannedBath& bath = plan_.baths.at(number);
    const Batch batch = batch_of(plan_, number, orders_, shop_);
    bath.drying = std::max(Duration{}, batch.durations.drying - shop_.drying.between_weighings.value);
    const std::span routing = std::span{batch.routing}.first(together(batch.routing));
    std::vector<Operation> ops = operations(routing, batch);
    wait_for_resin(plan_, bath, ops);
    const auto loads = loads_of(plan_, number, routing, ops);
    GoingOn going;
    for (const BlankShare& share : bath.shares) {
      --left_.at(share.order);
      if (not_placed_.at(share.order)) continue;
      const OrderInShare own{orders_[share.order], shop_, times(share.order).routing};
      put_behind(share.order, out_of(share, own, routing, ops, loads_at(loads)), going);
    }
    const auto planned = full_ ? std::nullopt : placed_together(ops, bath.bath.vessel->name.value, going.tied);
    if (planned) {
      note_load_times(plan_, loads, planned->shared);
      note_bath_times(bath, routing, batch.durations, joined(ops, planned->shared, routing.size()));
    }
    note_age_of_resin(plan_, bath, shop_.zone.value);
    for (const BlankShare& share : bath.shares) {
      if (!planned) not_placed_.at(share.order) = true;
      if (!planned) continue;
      times(share.order).bath = number;
      add_own(share.order, routing, ops, planned->shared, [&](PlannedRun& run, std::size_t i) {
        run.bath = bath.number;
        if (loads[i]) run.load = plan_.loads.at(*loads[i]).number;
        run.blanks =
            loads[i] ? blanks_at(share, routing[ops[i].step], loads[i]) : blanks_of_run(bath, share, routing, ops, i);
      });
      tell_load_waits(fmt::to_string(bath.number + 1), routing, ops, planned->shared,
                      plan_.orders.at(share.order).said);
    }
    if (planned) add_behind(going, *planned);
    for (const BlankShare& share : bath.shares) {
      if (left_.at(share.order) > 0) continue;
      place_behind_baths(share.order);
      finish(share.order);
    }
  }

  /// The loads that operations of a bath cure; null for the others.
  std::vector<const PlannedLoad*> loads_at(std::span<const std::optional<std::size_t>> loads) const {
    std::vector<const PlannedLoad*> all;
    for (const auto& load : loads) all.push_back(load ? &plan_.loads.at(*load) : nullptr);
    return all;
  }

  std::optional<OrderSchedule> placed(std::vector<Operation> ops, Instant from) {
    count_from_beginning(ops, time_.at);
    auto planned = calendar_.place(ops, from, {});
    if (!planned) {
      note_obstacle(planned.error());
      return std::nullopt;
    }
    note_running(ops, *planned);
    return std::move(*planned);
  }

  /// Where further loads cannot go in within their wait they go in as soon as they can.
  std::optional<PlacedTogether> placed_together(std::vector<Operation> ops, const std::string& in_turn,
                                                std::span<const Behind> behind) {
    count_from_beginning(ops, time_.at);
    auto planned = place_together(calendar_, ops, time_.at, in_turn, behind);
    if (!planned) note_obstacle(planned.error());
    if (!planned && !full_ && let_loads_wait(ops)) {
      planned = place_together(calendar_, ops, time_.at, in_turn, behind);
      if (!planned) note_obstacle(planned.error());
    }
    if (!planned) return std::nullopt;
    note_running(ops, planned->shared);
    return std::move(*planned);
  }

  /// Beyond the horizon what comes later would only be later still, and need not be tried.
  void note_obstacle(const Obstacle& obstacle) { full_ = full_ || obstacle.why == Impossible::beyond_horizon; }

  /// What goes on behind a bath: the blanks of each order that has any there, and what of it is tied to the bath.
  struct GoingOn {
    std::vector<std::pair<std::size_t, OutOfBath>> blanks;
    std::vector<Behind> tied;
  };

  void put_behind(std::size_t i, const std::optional<OutOfBath>& out, GoingOn& going) {
    if (!out) return;
    going.blanks.emplace_back(i, *out);
    std::vector<Operation> ops = tied_to_bath(*out, {orders_[i], shop_, times(i).routing});
    if (!ops.empty()) going.tied.push_back({i, std::move(ops), out->after});
  }

  void add_behind(const GoingOn& going, const PlacedTogether& planned) {
    for (const auto& [i, out] : going.blanks) {
      out_of_baths_.at(i).push_back(out);
      out_of_baths_.at(i).back().ready = planned.shared.operations.at(out.after).end;
    }
    for (std::size_t k = 0; k < going.tied.size(); ++k) {
      const Behind& one = going.tied[k];
      const auto& own = planned.behind.at(k);
      if (!own) {
        not_placed_.at(one.order) = true;
        continue;
      }
      const std::size_t shared = shared_of(one.order);
      add(one.order, shared, one.ops, *own);
      out_of_baths_.at(one.order).back().ready = own->finish;
      const Instant begins = own->operations.front().start;
      if (too_late(one.ops.front(), planned.ready.at(k), begins) == std::chrono::minutes{0}) continue;
      tell_wait_behind(orders_[one.order], *times(one.order).routing.at(shared + one.ops.front().step),
                       one.ops.front(), planned.ready.at(k), begins, shop_.zone.value,
                       plan_.orders.at(one.order).said);
    }
  }

  int blanks_at(const BlankShare& share, const OperationFacts* facts, std::optional<std::size_t> load) {
    return blankwright::blanks_at(share, {orders_[share.order], shop_, times(share.order).routing}, facts,
                                  load ? &plan_.loads.at(*load) : nullptr);
  }

  /// How many of a share's blanks go through operation `i` of their bath.
  int blanks_of_run(const PlannedBath& bath, const BlankShare& share, std::span<const OperationFacts* const> routing,
                    std::span<const Operation> ops, std::size_t i) {
    std::vector<int> of_shares;
    std::size_t own = 0;
    for (const BlankShare& other : bath.shares) {
      if (other.order == share.order) own = of_shares.size();
      of_shares.push_back(blanks_at(other, routing[ops[i].step], {}));
    }
    return blanks_of_go(of_shares, own, ops, i);
  }

  int blanks_of_run(const BathUnderWay& bath, const BathUnderWay::Share& share,
                    std::span<const OperationFacts* const> routing, std::span<const Operation> ops, std::size_t i) {
    std::vector<int> of_shares;
    std::size_t own = 0;
    for (const BathUnderWay::Share& other : bath.shares) {
      if (other.order == share.order) own = of_shares.size();
      of_shares.push_back(
          blankwright::blanks_at(other, times(other.order).routing, routing[ops[i].step], ops[i].begun));
    }
    return ops[i].begun ? of_shares.at(own) : blanks_of_go(of_shares, own, ops, i);
  }

  /// What one order goes through with others, of a routing that may have more: where it has blanks, as `tell` has it.
  void add_own(std::size_t i, std::span<const OperationFacts* const> routing, std::span<const Operation> ops,
               const OrderSchedule& planned, const auto& tell) {
    std::vector<Operation> own_ops;
    OrderSchedule own{{}, planned.finish};
    for (std::size_t k = 0; k < ops.size(); ++k) {
      PlannedOperation done = planned.operations.at(k);
      for (PlannedRun& run : done.runs) tell(run, k);
      if (done.runs.front().blanks == 0) continue;
      own_ops.push_back(ops[k]);
      own_ops.back().step = step_of(routing[ops[k].step], times(i).routing).value();
      own.operations.push_back(std::move(done));
    }
    add(i, 0, own_ops, std::move(own));
  }

  /// Adds to an order's times what begins at step `first` of its routing. An order that is in several baths goes
  /// through an operation from the first one's start to the last one's end.
  void add(std::size_t i, std::size_t first, std::span<const Operation> ops, OrderSchedule planned) {
    PlacedTimes& t = times(i);
    count_blanks(ops, planned);
    const OrderSchedule by_step = joined(ops, std::move(planned), t.routing.size() - first);
    for (std::size_t step = 0; step < by_step.operations.size(); ++step) {
      add_runs(t.planned.operations.at(first + step), by_step.operations.at(step));
    }
  }

  /// The operations that blanks of an order go through by themselves, from number `first` on.
  std::vector<Operation> rest_of(std::size_t i, std::size_t first, const Batch& batch) {
    if (batch.needs.pieces == 0) return {};
    return operations(std::span{times(i).routing}.subspan(first), batch);
  }

  /// What comes behind an order's baths, without what was tied to them and is placed; all of it, where the routing
  /// has nothing that is done in a bath.
  void place_behind_baths(std::size_t i) {
    if (full_ || not_placed_.at(i)) return;
    const std::size_t first = shared_of(i);
    if (out_of_baths_.at(i).empty())
      return place_rest(i, first, time_.at, rest_of(i, first, not_cured_of(orders_[i], first, shop_)));
    const auto all = place_out_of_baths(calendar_, {orders_[i], shop_, times(i).routing}, out_of_baths_.at(i));
    if (!all) {
      note_obstacle(all.error());
      not_placed_.at(i) = true;
      return;
    }
    for (const PlacedRest& rest : *all) add(i, first, rest.ops, rest.planned);
  }

  void place_rest(std::size_t i, std::size_t first, Instant from, std::span<const Operation> ops) {
    if (full_ || not_placed_.at(i) || ops.empty()) return;
    auto planned = placed({ops.begin(), ops.end()}, from);
    if (planned) {
      add(i, first, ops, std::move(*planned));
    } else {
      not_placed_.at(i) = true;
    }
  }

  /// What is over stands with its real times. Where the calendar had no room for an order, or for one of its baths,
  /// its times are as if it were alone.
  void finish(std::size_t i) {
    if (not_placed_.at(i) || full_) plan_alone(plan_.orders.at(i), orders_[i], shop_, time_);
    if (!plan_.orders.at(i).times) return;
    add_past(orders_[i], *plan_.orders.at(i).times, time_.at);
    tell_later_entries(orders_[i], time_.at, shop_.zone.value, plan_.orders.at(i).said);
    tell_runs_too_long(orders_[i], *plan_.orders.at(i).times, shop_.zone.value, plan_.orders.at(i).said);
    tell_broken_waits(orders_[i], *plan_.orders.at(i).times, shop_.zone.value, plan_.orders.at(i).said);
  }

  std::vector<OrderToMake> orders_;  ///< what goes on with some of their blanks apart from the others is placed first
  const Shop& shop_;
  const ShopTime& time_;
  ShopPlan& plan_;
  ShopCalendar calendar_;
  std::vector<int> left_;                             ///< baths of an order that are not planned yet
  std::vector<std::vector<OutOfBath>> out_of_baths_;  ///< an order's blanks, bath by bath
  std::vector<bool> not_placed_;                      ///< the calendar had no room for a part of the order
  bool full_ = false;
};

}  // namespace

void place_orders(ShopPlan& plan, std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time,
                  std::span<const Turn> turns) {
  Planner{orders, shop, time, plan}.run(turns);
}

}  // namespace blankwright
