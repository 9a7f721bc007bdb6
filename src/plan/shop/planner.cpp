#include "plan/shop/planner.h"

#include <algorithm>
#include <map>
#include <numeric>

#include "plan/shop/against_plan.h"
#include "plan/shop/plan_alone.h"
#include "plan/shop/urgency.h"

namespace blankwright {

Planner::Planner(std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time, const Sharing& sharing,
                 ShopPlan& plan)
    : orders_{orders.begin(), orders.end()},
      shop_{shop},
      time_{time},
      sharing_{sharing},
      plan_{plan},
      calendar_{time},
      out_of_baths_(orders.size()),
      not_placed_(orders.size()) {
  plan_.orders.resize(orders.size());
  for (std::size_t i = 0; i < orders.size(); ++i) begin_order(i);
  for (std::size_t i = 0; i < orders.size(); ++i) own_.push_back({orders_[i], shop_, times(i).routing});
  for (const auto& [place, groups] : groups_apart(orders_, shop_)) place_apart(place.step, groups);
  for (std::size_t k = 0; k < plan_.under_way.size(); ++k) place_under_way(k);
  place_cured();
  make_chains();
}

void Planner::begin_order(std::size_t i) {
  PlacedTimes times;
  times.routing = routing_of(orders_[i].durations, shop_);
  times.planned.operations.resize(times.routing.size());
  for (std::size_t step = 0; step < orders_[i].past.size(); ++step)
    calendar_.count_done(*times.routing.at(step), orders_[i].past.at(step));
  plan_.orders.at(i).times = std::move(times);
}

/// What goes on apart from the others' work: each by itself, from its beginning, and with what is tied to it.
void Planner::place_apart(std::size_t step, std::span<const GroupApart> groups) {
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
    tell_of_running(orders_[i], ops, own, time_, said(i));
    add(i, step, ops, std::move(own));
  }
  for (const auto& [i, group] : groups) {
    group->at.next = step + steps;
    group->at.begun.reset();
    if (planned) group->free_from = planned->finish;
  }
}

/// How many operations are tied to what goes on with all of these.
std::size_t Planner::tied_to_all(std::size_t step, std::span<const GroupApart> groups) {
  const std::span routing = std::span{times(groups.front().order).routing}.subspan(step + 1);
  std::size_t count = tied(routing);
  for (const auto& [i, group] : groups) {
    const std::span other = std::span{times(i).routing}.subspan(step + 1);
    count = std::min(count, static_cast<std::size_t>(std::ranges::mismatch(routing, other).in1 - routing.begin()));
  }
  return count;
}

/// Blanks in a bath, wet or in the oven go on up to the cure.
void Planner::place_under_way(std::size_t number) {
  const BathUnderWay& bath = plan_.under_way.at(number);
  const Batch batch = batch_of(bath, orders_, shop_);
  const std::span routing = std::span{batch.routing}.first(together(batch.routing));
  auto ops = operations(routing, batch);
  if (ops.empty()) return;
  std::vector<GoesOn> going;
  std::vector<Behind> tied;
  for (const BathUnderWay::Share& share : bath.shares)
    set_behind(share.order, out_of(bath, share, orders_, own_.at(share.order), routing, ops), going, tied);
  const auto planned = placed_together(ops, tied);
  if (planned) ops = as_placed(std::move(ops), planned->shared);
  for (const BathUnderWay::Share& share : bath.shares) {
    if (!planned) not_placed_.at(share.order) = true;
    if (!planned) continue;
    times(share.order).under_way = number;
    add_own(share.order, routing, ops, planned->shared, [&](PlannedRun& run, std::size_t i) {
      run.name = bath.name;
      run.blanks = blankwright::blanks_of_run(bath, share, orders_, shop_, routing, ops, i);
    });
    tell_load_waits(bath.name, routing, ops, planned->shared, said(share.order));
    tell_of_running(orders_[share.order], ops, planned->shared, time_, said(share.order));
  }
  if (planned) write_tied(going, tied, planned->behind, planned->ready);
  for (const GoesOn& one : going) {
    if (!planned || not_placed_.at(one.order)) continue;
    out_of_baths_.at(one.order).push_back(one.out);
    out_of_baths_.at(one.order).back().ready =
        one.tied ? planned->behind.at(*one.tied)->finish : planned->shared.operations.at(one.out.after).end;
  }
}

/// What of orders is through its bath goes on by itself, the most urgent first.
void Planner::place_cured() {
  std::vector<std::size_t> by_date(orders_.size());
  std::iota(by_date.begin(), by_date.end(), std::size_t{0});
  std::ranges::stable_sort(by_date, {}, [&](std::size_t i) { return std::pair{due_of(orders_[i]), orders_[i].id}; });
  for (const std::size_t i : by_date) {
    const std::size_t shared = shared_of(i);
    const auto ops = rest_of(i, shared, cured_of(orders_[i], shared, shop_));
    if (not_placed_.at(i) || ops.empty()) continue;
    auto planned = full_ ? std::nullopt : placed(ops, time_.at);
    if (planned) {
      add(i, shared, ops, std::move(*planned));
    } else {
      not_placed_.at(i) = true;
    }
  }
}

std::optional<OrderSchedule> Planner::placed(std::vector<Operation> ops, Instant from) {
  count_from_beginning(ops, time_.at);
  auto planned = calendar_.place(ops, from, {});
  if (!planned) {
    full_ = full_ || planned.error().why == Impossible::beyond_horizon;
    return std::nullopt;
  }
  note_running(ops, *planned);
  return std::move(*planned);
}

/// Where further loads cannot go in within their wait they go in as soon as they can.
std::optional<PlacedTogether> Planner::placed_together(std::vector<Operation> ops, std::span<const Behind> tied) {
  count_from_beginning(ops, time_.at);
  auto planned = place_together(calendar_, ops, time_.at, {}, tied);
  const auto is_full = [&] { return !planned && planned.error().why == Impossible::beyond_horizon; };
  full_ = full_ || is_full();
  if (!planned && !full_ && let_loads_wait(ops)) {
    planned = place_together(calendar_, ops, time_.at, {}, tied);
    full_ = full_ || is_full();
  }
  if (!planned) return std::nullopt;
  note_running(ops, planned->shared);
  return std::move(*planned);
}

Placement Planner::begin(const ChainPlacer& placer) const {
  Placement now = placer.begin(calendar_, finish_so_far(), not_placed_);
  now.full = full_;
  return now;
}

std::vector<Instant> Planner::finish_so_far() const {
  std::vector<Instant> all;
  for (std::size_t i = 0; i < orders_.size(); ++i) {
    Instant& last = all.emplace_back(time_.at);
    for (const PlannedOperation& op : times(i).planned.operations) {
      if (!op.runs.empty()) last = std::max(last, op.end);
    }
  }
  return all;
}

std::vector<Operation> Planner::rest_of(std::size_t i, std::size_t first, const Batch& batch) const {
  if (batch.needs.pieces == 0) return {};
  return operations(std::span{times(i).routing}.subspan(first), batch);
}

}  // namespace blankwright
