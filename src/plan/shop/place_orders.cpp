#include "plan/shop/place_orders.h"

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
#include "plan/shop/not_planned.h"
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
        not_placed_(orders.size()) {
    plan_.orders.resize(orders.size());
    for (std::size_t i = 0; i < orders.size(); ++i) begin(i);
  }

  void run() {
    for (const auto& [place, groups] : groups_apart(orders_, shop_)) place_apart(place.step, groups);
    for (const PlannedBath& bath : plan_.baths) {
      for (const BlankShare& share : bath.shares) ++left_.at(share.order);
    }
    for (std::size_t k = 0; k < plan_.under_way.size(); ++k) place_under_way(k);
    std::vector<std::size_t> by_date(orders_.size());
    std::iota(by_date.begin(), by_date.end(), std::size_t{0});
    std::ranges::stable_sort(by_date, {}, [&](std::size_t i) { return std::pair{due_of(i), orders_[i].id}; });
    for (const std::size_t i : by_date)
      place_rest(i, shared_of(i), time_.at, cured_of(orders_[i], shared_of(i), shop_));
    for (const bool open : {true, false}) place_those(open, by_date);
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
    plan_.orders.at(i).times = std::move(times);
  }

  /// Open orders, or new ones.
  void place_those(bool open, std::span<const std::size_t> by_date) {
    std::vector<std::size_t> without_bath;
    for (const std::size_t i : by_date) {
      if (orders_[i].holds_place == open && left_.at(i) == 0) without_bath.push_back(i);
    }
    for (std::size_t k = 0; k < plan_.baths.size(); ++k) {
      if (orders_[plan_.baths.at(k).shares.front().order].holds_place == open) place_bath(k);
    }
    for (const std::size_t i : without_bath) {
      const std::size_t first = end_of_baths(i) ? shared_of(i) : 0;
      place_rest(i, first, end_of_baths(i).value_or(time_.at), not_cured_of(orders_[i], first, shop_));
      finish(i);
    }
  }

  /// What goes on apart from the others' work: each by itself, from its beginning.
  void place_apart(std::size_t step, std::span<const GroupApart> groups) {
    const BlankGroup first = *groups.front().group;
    std::vector<Operation> ops;
    std::map<std::size_t, int> blanks;  // by order
    for (const auto& [i, group] : groups) {
      Operation op = whole_operation(*times(i).routing.at(step), orders_[i], shop_);
      if (ops.empty() || op.length > ops.front().length) ops = {std::move(op)};
      blanks[i] += group->pieces + group->witnesses;
    }
    Operation& op = ops.front();
    op.step = step;
    op.begun = first.at.begun;
    op.hands_on_at_start = {};
    op.longest_wait.reset();
    if (!op.resource.empty() && !first.oven.empty()) op.resource = first.oven;
    auto planned = placed(ops, time_.at, {});
    for (const auto& [i, count] : blanks) {
      if (!planned) not_placed_.at(i) = true;
      if (!planned) continue;
      OrderSchedule own = *planned;
      own.operations.front().runs.front().blanks = count;
      if (!op.resource.empty()) own.operations.front().runs.front().name = first.load;
      add(i, 0, ops, std::move(own));
    }
    for (const auto& [i, group] : groups) {
      group->at.next = step + 1;
      group->at.begun.reset();
      if (planned) group->free_from = planned->finish;
    }
  }

  /// Blanks in a bath, wet or in the oven go on up to the cure.
  void place_under_way(std::size_t number) {
    const BathUnderWay& bath = plan_.under_way.at(number);
    const std::size_t leader = bath.shares.front().order;
    const std::size_t shared = shared_of(leader);
    const Batch batch = batch_of(bath, orders_, shop_);
    auto ops = operations(std::span{times(leader).routing}.first(shared), batch);
    if (ops.empty()) return;
    auto planned = placed(ops, time_.at, {});
    if (!planned && !full_ && let_loads_wait(ops)) planned = placed(ops, time_.at, {});
    if (planned) warn_of_waits(bath.name, bath.shares, ops, *planned);
    for (const BathUnderWay::Share& share : bath.shares) {
      if (!planned) {
        not_placed_.at(share.order) = true;
        continue;
      }
      times(share.order).under_way = number;
      const auto blanks = [&](std::size_t step) {
        int count = 0;
        for (const BlankGroup& group : share.groups)
          count += group.at.next <= step ? group.pieces + group.witnesses : 0;
        return count;
      };
      std::vector<Operation> own_ops;
      OrderSchedule own{{}, planned->finish};
      for (std::size_t i = 0; i < ops.size(); ++i) {
        if (blanks(ops.at(i).step) == 0) continue;
        own_ops.push_back(ops.at(i));
        PlannedOperation& done = own.operations.emplace_back(planned->operations.at(i));
        for (PlannedRun& run : done.runs) {
          run.name = bath.name;
          run.blanks = blanks(ops.at(i).step);
        }
      }
      add(share.order, 0, own_ops, std::move(own));
    }
  }

  /// A bath's blanks go through the operations up to the cure; then the orders that are complete go on.
  void place_bath(std::size_t number) {
    PlannedBath& bath = plan_.baths.at(number);
    const std::size_t leader = bath.shares.front().order;
    const std::size_t shared = shared_of(leader);
    const Batch batch = batch_of(plan_, number, orders_, shop_);
    bath.drying = std::max(Duration{}, batch.durations.drying - shop_.drying.between_weighings.value);
    std::vector<Operation> ops = operations(std::span{times(leader).routing}.first(shared), batch);
    wait_for_resin(bath, ops);
    auto planned = full_ ? std::nullopt : placed(ops, time_.at, bath.bath.vessel->name.value);
    if (!planned && !full_ && let_loads_wait(ops)) planned = placed(ops, time_.at, bath.bath.vessel->name.value);
    std::vector<std::optional<std::size_t>> loads;
    if (planned) {
      loads = loads_of(number, leader, ops);
      note_load_times(loads, *planned);
      warn_of_waits(number + 1, bath.shares, ops, *planned);
      note_bath_times(bath, leader, joined(ops, *planned, shared));
    }
    note_age_of_resin(bath);
    for (const BlankShare& share : bath.shares) {
      if (planned) add_share(share, number, ops, loads, *planned);
      if (!planned) not_placed_.at(share.order) = true;
      if (--left_.at(share.order) > 0) continue;
      if (planned) {
        place_rest(share.order, shared, end_of_baths(share.order).value_or(planned->finish),
                   not_cured_of(orders_[share.order], shared, shop_));
      }
      finish(share.order);
    }
  }

  /// When the last of an order's baths is through, which need not be the one planned last.
  std::optional<Instant> end_of_baths(std::size_t i) {
    std::optional<Instant> end;
    for (std::size_t step = 0; step < shared_of(i); ++step) {
      const PlannedOperation& op = times(i).planned.operations.at(step);
      if (!op.runs.empty()) end = std::max(end, std::optional{op.end});
    }
    return end;
  }

  std::optional<OrderSchedule> placed(std::vector<Operation> ops, Instant from, const std::string& in_turn) {
    count_from_beginning(ops, time_.at);
    auto planned = calendar_.place(ops, from, in_turn);
    if (!planned) {
      // Then what comes later would only be later still, and need not be tried.
      full_ = full_ || planned.error().why == Impossible::beyond_horizon;
      return std::nullopt;
    }
    note_running(ops, *planned);
    return std::move(*planned);
  }

  void note_bath_times(PlannedBath& bath, std::size_t leader, const OrderSchedule& planned) {
    for (std::size_t i = 0; i < planned.operations.size(); ++i) {
      const auto& work = times(leader).routing.at(i)->planned;
      const Interval at{planned.operations.at(i).start, planned.operations.at(i).end};
      if (work && work->value == PlannedWork::vacuum) bath.vacuum = at;
      if (work && work->value == PlannedWork::soak) bath.soak = at;
    }
    const PlannedDurations& durations = orders_[leader].durations;
    bath.hold = durations.vacuum - durations.pump_down;
    bath.least_soak = durations.soak;
    if (!bath.vacuum || durations.soak_share <= 0) return;
    bath.hold = std::max(bath.hold, between(bath.vacuum->from, bath.vacuum->to) - durations.pump_down);
    bath.least_soak = std::max(bath.least_soak, durations.soak_share * bath.hold);
  }

  /// Resin that another bath leaves over is there when that is over.
  void wait_for_resin(const PlannedBath& bath, std::vector<Operation>& ops) const {
    const auto in_vessel = std::ranges::find(ops, bath.bath.vessel->name.value, &Operation::resource);
    if (in_vessel == ops.end()) return;
    for (const std::size_t other : bath.resin_from) {
      const auto& soak = plan_.baths.at(other).soak;
      if (soak) in_vessel->earliest = std::max(in_vessel->earliest.value_or(soak->to), soak->to);
    }
  }

  void note_age_of_resin(PlannedBath& bath) const {
    const auto not_after = [&](std::optional<Date> day) {
      if (day) bath.activated = std::min(bath.activated.value_or(*day), *day);
    };
    if (bath.vacuum) not_after(date_of(shop_.zone.value, bath.vacuum->from));
    for (const std::size_t other : bath.resin_from) not_after(plan_.baths.at(other).activated);
  }

  /// Loads of the oven that wait longer than their operation lets them; the last one waits longest.
  void warn_of_waits(const auto& bath, const auto& shares, std::span<const Operation> ops,
                     const OrderSchedule& planned) {
    for (std::size_t i = 1; i < ops.size(); ++i) {
      const OperationFacts& facts = *times(shares.front().order).routing.at(ops[i].step);
      // What follows the step before it is held to its wait by the schedule; a further load is not.
      const bool is_further = ops[i - 1].step >= ops[i].step;
      const bool is_last =
          std::ranges::none_of(ops.subspan(i + 1), [&](const Operation& op) { return op.step == ops[i].step; });
      if (!facts.longest_wait || !is_further || !is_last) continue;
      const auto first =
          static_cast<std::size_t>(std::ranges::find(ops, ops[i].step, &Operation::step) - ops.begin());
      const Instant since = first > 0 ? planned.operations.at(first - 1).end : planned.operations.front().start;
      const Duration wait =
          duration_of(std::chrono::ceil<std::chrono::minutes>(planned.operations.at(i).start - since));
      if (wait <= facts.longest_wait->value) continue;
      for (const auto& share : shares) {
        plan_.orders.at(share.order)
            .said
            .warning(Problem::load_waits_too_long, facts.longest_wait->at, says::last_load_waits, bath, printed(wait),
                     facts.name.value)
            .hint(says::fewer_or_longer_wait, printed(wait));
      }
    }
  }

  /// The load that each of the operations cures; none of the others. A bath's loads are cured in their order.
  std::vector<std::optional<std::size_t>> loads_of(std::size_t bath, std::size_t leader,
                                                   std::span<const Operation> ops) {
    std::vector<std::optional<std::size_t>> loads(ops.size());
    auto load =
        static_cast<std::size_t>(std::ranges::find(plan_.loads, bath, &PlannedLoad::bath) - plan_.loads.begin());
    for (std::size_t i = 0; i < ops.size(); ++i) {
      const auto& work = times(leader).routing.at(ops[i].step)->planned;
      if (!work || work->value != PlannedWork::cure || load == plan_.loads.size()) continue;
      if (plan_.loads.at(load).bath == bath) loads.at(i) = load++;
    }
    return loads;
  }

  void note_load_times(std::span<const std::optional<std::size_t>> loads, const OrderSchedule& planned) {
    for (std::size_t i = 0; i < loads.size(); ++i) {
      const PlannedOperation& done = planned.operations.at(i);
      if (loads[i]) plan_.loads.at(*loads[i]).cure = Interval{done.start, done.end};
    }
  }

  /// What one order of a bath goes through: without the loads of the oven that none of its blanks lie in.
  void add_share(const BlankShare& share, std::size_t bath, std::span<const Operation> ops,
                 std::span<const std::optional<std::size_t>> loads, const OrderSchedule& planned) {
    std::vector<Operation> own_ops;
    OrderSchedule own{{}, planned.finish};
    for (std::size_t i = 0; i < ops.size(); ++i) {
      int blanks = still_open(share, orders_[share.order], ops[i].step);
      if (loads[i]) {
        const auto& shares = plan_.loads.at(*loads[i]).shares;
        const auto in_load = std::ranges::find(shares, share.order, &BlankShare::order);
        if (in_load == shares.end()) continue;
        blanks = in_load->total();
      }
      if (blanks == 0) continue;
      own_ops.push_back(ops[i]);
      PlannedOperation& done = own.operations.emplace_back(planned.operations.at(i));
      for (PlannedRun& run : done.runs) {
        run.bath = plan_.baths.at(bath).number;
        if (loads[i]) run.load = plan_.loads.at(*loads[i]).number;
        run.blanks = blanks;
      }
    }
    times(share.order).bath = bath;
    add(share.order, 0, own_ops, std::move(own));
  }

  /// Adds to an order's times what begins at step `first` of its routing. An order that is in several baths goes
  /// through an operation from the first one's start to the last one's end.
  void add(std::size_t i, std::size_t first, std::span<const Operation> ops, OrderSchedule planned) {
    PlacedTimes& t = times(i);
    const OrderSchedule by_step = joined(ops, std::move(planned), t.routing.size() - first);
    for (std::size_t step = 0; step < by_step.operations.size(); ++step) {
      add_runs(t.planned.operations.at(first + step), by_step.operations.at(step));
    }
  }

  /// The operations that blanks of an order go through by themselves, from number `first` on.
  void place_rest(std::size_t i, std::size_t first, Instant from, const Batch& batch) {
    if (full_ || not_placed_.at(i) || batch.needs.pieces == 0) return;
    const auto ops = operations(std::span{times(i).routing}.subspan(first), batch);
    if (ops.empty()) return;
    auto planned = placed(ops, from, {});
    if (planned) {
      add(i, first, ops, std::move(*planned));
    } else {
      not_placed_.at(i) = true;
    }
  }

  /// What is over stands with its real times. Where the calendar had no room for an order, or for one of its baths,
  /// its times are as if it were alone.
  void finish(std::size_t i) {
    if (not_placed_.at(i) || full_) plan_alone(i);
    if (!plan_.orders.at(i).times) return;
    add_past(orders_[i], *plan_.orders.at(i).times, time_.at);
    tell_later_entries(orders_[i], time_.at, shop_.zone.value, plan_.orders.at(i).said);
    tell_broken_waits(orders_[i], *plan_.orders.at(i).times, shop_.zone.value, plan_.orders.at(i).said);
  }

  void plan_alone(std::size_t i) {
    OrderInShop& order = plan_.orders.at(i);
    PlacedTimes& t = times(i);
    t.bath.reset();
    t.under_way.reset();
    auto ops = operations(t.routing, alone(orders_[i], shop_));
    count_from_beginning(ops, time_.at);
    auto planned = ShopCalendar{time_}.place(ops, time_.at, {});
    if (!planned && let_loads_wait(ops)) planned = ShopCalendar{time_}.place(ops, time_.at, {});
    if (!planned) {
      const OperationFacts& facts = *t.routing.at(ops.at(planned.error().operation).step);
      say_not_planned(order.said, orders_[i], facts, ops, planned.error(), time_);
      order.times.reset();
      return;
    }
    note_running(ops, *planned);
    t.planned = joined(ops, std::move(*planned), t.routing.size());
    t.alone = true;
    order.said.warning(Problem::calendar_too_full, orders_[i].quantity_at, says::calendar_is_full)
        .hint(says::compile_fewer);
  }

  std::vector<OrderToMake> orders_;  ///< what goes on with some of their blanks apart from the others is placed first
  const Shop& shop_;
  const ShopTime& time_;
  ShopPlan& plan_;
  ShopCalendar calendar_;
  std::vector<int> left_;         ///< baths of an order that are not planned yet
  std::vector<bool> not_placed_;  ///< the calendar had no room for a part of the order
  bool full_ = false;
};

}  // namespace

bool let_loads_wait(std::vector<Operation>& ops) {
  bool any = false;
  for (std::size_t i = 1; i < ops.size(); ++i) {
    if (ops.at(i).step != ops.at(i - 1).step || !ops.at(i).longest_wait) continue;
    ops.at(i).longest_wait.reset();
    any = true;
  }
  return any;
}

void place_orders(ShopPlan& plan, std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time) {
  Planner{orders, shop, time, plan}.run();
}

}  // namespace blankwright
