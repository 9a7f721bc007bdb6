#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "plan/shop/against_plan.h"
#include "plan/shop/bath_times.h"
#include "plan/shop/plan_alone.h"
#include "plan/shop/planner.h"

namespace blankwright {

void Planner::write(Placement placed, std::vector<PlacedChain> times_of) {
  not_placed_ = std::move(placed.not_placed);
  for (std::size_t k = 0; k < chains_.size(); ++k) {
    const Chain& chain = chains_.at(k);
    if (chain.bath && is_complete(chain, times_of.at(k))) note_bath(chain, times_of.at(k));
  }
  number_baths();
  for (std::size_t k = 0; k < chains_.size(); ++k) {
    const Chain& chain = chains_.at(k);
    if (!is_complete(chain, times_of.at(k))) continue;
    if (chain.bath) {
      write_bath(chain, times_of.at(k));
    } else {
      write_own(chain, std::move(times_of.at(k)));
    }
  }
  full_ = full_ || placed.full;
  for (std::size_t i = 0; i < orders_.size(); ++i) finish(i);
  plan_.promised = std::move(placed.calendar);
}

bool Planner::is_complete(const Chain& chain, const PlacedChain& times) {
  return chain.out != nullptr || times.planned.operations.size() == chain.ops.size();
}

void Planner::note_bath(const Chain& chain, const PlacedChain& times) {
  note_load_times(plan_, chain.loads, times.planned, orders_);
  note_bath_times(plan_.baths.at(*chain.bath), chain.routing, chain.durations,
                  joined(chain.ops, times.planned, chain.routing.size()));
}

/// Numbers baths and loads as the sheets of a run name them: those with blanks of its orders first, as they go into
/// their vessels.
void Planner::number_baths() {
  std::vector<std::size_t> by_time(plan_.baths.size());
  std::iota(by_time.begin(), by_time.end(), std::size_t{0});
  const auto begins = [&](std::size_t number) {
    const PlannedBath& bath = plan_.baths.at(number);
    return bath.vacuum ? bath.vacuum->from : bath.soak ? bath.soak->from : Instant::max();
  };
  std::ranges::stable_sort(by_time, {}, begins);
  const auto is_of_run = [&](const std::vector<BlankShare>& shares) {
    return std::ranges::any_of(shares, [&](const BlankShare& share) { return orders_[share.order].of_run; });
  };
  std::size_t next_bath = 0, next_load = 0;
  for (const bool of_run : {true, false}) {
    for (const std::size_t number : by_time) {
      PlannedBath& bath = plan_.baths.at(number);
      if (is_of_run(bath.shares) == of_run) bath.number = next_bath++;
      for (PlannedLoad& load : plan_.loads) {
        if (load.bath == number && is_of_run(load.shares) == of_run) load.number = next_load++;
      }
    }
  }
  for (const std::size_t number : by_time) note_age_of_resin(plan_, plan_.baths.at(number), shop_.zone.value);
}

/// A bath's blanks go through the operations up to the cure.
void Planner::write_bath(const Chain& chain, PlacedChain& placed) {
  const PlannedBath& bath = plan_.baths.at(*chain.bath);
  const std::vector<Operation> ops = as_placed(chain.ops, placed.planned);
  note_running(ops, placed.planned);
  for (const BlankShare& share : bath.shares) {
    times(share.order).bath = *chain.bath;
    add_own(share.order, chain.routing, ops, placed.planned, [&](PlannedRun& run, std::size_t i) {
      const auto& load = chain.loads.at(i);
      run.bath = bath.number;
      if (load) run.load = plan_.loads.at(*load).number;
      run.blanks = load ? blanks_at(share, chain.routing.at(ops.at(i).step), load)
                        : blanks_of_run(bath, share, chain.routing, ops, i);
    });
    tell_load_waits(fmt::to_string(bath.number + 1), chain.routing, ops, placed.planned, said(share.order));
  }
  write_tied(chain.going, chain.tied, placed.tied, placed.tied_ready);
}

/// What is tied to a bath.
void Planner::write_tied(std::span<const GoesOn> going, std::span<const Behind> tied,
                         std::span<const std::optional<OrderSchedule>> placed, std::span<const Instant> ready) {
  for (const GoesOn& one : going) {
    if (!one.tied) continue;
    const Behind& behind = tied[*one.tied];
    const auto& own = placed[*one.tied];
    if (!own) {
      not_placed_.at(one.order) = true;
      continue;
    }
    const std::size_t shared = shared_of(one.order);
    add(one.order, shared, behind.ops, *own);
    const Instant begins = own->operations.front().start;
    if (too_late(behind.ops.front(), ready[*one.tied], begins) == std::chrono::minutes{0}) continue;
    tell_wait_behind(orders_[one.order], *times(one.order).routing.at(shared + behind.ops.front().step),
                     behind.ops.front(), ready[*one.tied], begins, shop_.zone.value, said(one.order));
  }
}

/// What an order does by itself, behind its baths or because it has none to come.
void Planner::write_own(const Chain& chain, PlacedChain placed) {
  const bool is_behind = times(chain.order).under_way || !chain.behind.empty();
  const std::size_t first = is_behind ? shared_of(chain.order) : 0;
  for (PlacedRest& rest : placed.rests) add(chain.order, first, rest.ops, std::move(rest.planned));
  if (chain.out != nullptr) return;
  note_running(chain.ops, placed.planned);
  add(chain.order, first, chain.ops, std::move(placed.planned));
}

int Planner::blanks_at(const BlankShare& share, const OperationFacts* facts, std::optional<std::size_t> load) const {
  return blankwright::blanks_at(share, own_.at(share.order), facts, load ? &plan_.loads.at(*load) : nullptr);
}

/// How many of a share's blanks go through operation `i` of their bath.
int Planner::blanks_of_run(const PlannedBath& bath, const BlankShare& share,
                           std::span<const OperationFacts* const> routing, std::span<const Operation> ops,
                           std::size_t i) const {
  std::vector<int> of_shares;
  std::size_t own = 0;
  for (const BlankShare& other : bath.shares) {
    if (other.order == share.order) own = of_shares.size();
    of_shares.push_back(blanks_at(other, routing[ops[i].step], {}));
  }
  return blanks_of_go(of_shares, own, ops, i);
}

/// Adds to an order's times what begins at step `first` of its routing. An order that is in several baths goes
/// through an operation from the first one's start to the last one's end.
void Planner::add(std::size_t i, std::size_t first, std::span<const Operation> ops, OrderSchedule planned) {
  PlacedTimes& t = times(i);
  count_blanks(ops, planned);
  const OrderSchedule by_step = joined(ops, std::move(planned), t.routing.size() - first);
  for (std::size_t step = 0; step < by_step.operations.size(); ++step)
    add_runs(t.planned.operations.at(first + step), by_step.operations.at(step));
}

/// What is over stands with its real times. Where the calendar had no room for an order, or for one of its baths, its
/// times are as if it were alone.
void Planner::finish(std::size_t i) {
  OrderInShop& own = plan_.orders.at(i);
  if (not_placed_.at(i)) plan_alone(own, orders_[i], shop_, time_);
  if (!own.times) return;
  add_past(orders_[i], *own.times, time_.at);
  tell_later_entries(orders_[i], time_.at, shop_.zone.value, own.said);
  tell_runs_too_long(orders_[i], *own.times, shop_.zone.value, own.said);
  tell_broken_waits(orders_[i], *own.times, shop_.zone.value, own.said);
}

}  // namespace blankwright
