#include "plan/shop/place_chains.h"

#include <algorithm>
#include <iterator>

#include "plan/routing/placing.h"
#include "plan/shop/plan_alone.h"

namespace blankwright {
namespace {

void note_obstacle(const Obstacle& obstacle, Placement& now) {
  now.full = now.full || obstacle.why == Impossible::beyond_horizon;
}

void end_not_before(Instant& at, Instant end) { at = std::max(at, end); }

void append(OrderSchedule& all, OrderSchedule more) {
  all.finish = more.finish;
  std::ranges::move(more.operations, std::back_inserter(all.operations));
}

}  // namespace

Placement ChainPlacer::begin(ShopCalendar calendar, std::vector<Instant> finish, std::vector<bool> not_placed) const {
  Placement now{std::move(calendar), {}, std::move(finish), std::move(not_placed)};
  for (const Chain& chain : chains_) now.chains.push_back({0, chain.from, {}, chain.there});
  return now;
}

void ChainPlacer::place_next(std::size_t chain, Placement& now, std::vector<PlacedChain>* kept) {
  const Chain& own = chains_[chain];
  const std::size_t block = now.chains.at(chain).next;
  if (block == own.blocks()) return;
  if (block == 0) {
    for (const std::size_t before : own.behind) {
      while (now.chains.at(before).next < chains_[before].blocks()) place_next(before, now, kept);
    }
  }
  if (own.in_vessel && own.block_of(*own.in_vessel) == block) {
    for (const std::size_t other : own.resin_from) {
      const Chain& from = chains_[other];
      while (now.chains.at(other).next <= from.block_of(from.out_of_vessel)) place_next(other, now, kept);
    }
  }
  now.chains.at(chain).next = block + 1;
  const auto is_out = [&](std::size_t order) { return now.not_placed.at(order); };
  if (now.full || (!own.bath && is_out(own.order))) return leave_out(own, now);
  ++placed_;
  if (own.out != nullptr) {
    place_rest(chain, now, kept);
  } else {
    place_block(chain, now, kept);
  }
}

void ChainPlacer::leave_out(const Chain& chain, Placement& now) const {
  for (const std::size_t order : chain.orders) now.not_placed.at(order) = true;
}

void ChainPlacer::wait_for_vessel(const Chain& chain, std::vector<Operation>& ops, std::size_t first,
                                  Placement& now) const {
  if (!chain.in_vessel || *chain.in_vessel < first || *chain.in_vessel >= first + ops.size()) return;
  auto& earliest = ops.at(*chain.in_vessel - first).earliest;
  const auto wait_until = [&](Instant at) { earliest = std::max(earliest.value_or(at), at); };
  for (const std::size_t other : chain.resin_from) wait_until(now.chains.at(other).soaked);
  const auto last = now.darkness.find(chain.vessel);
  if (last != now.darkness.end() && chain.darkness < last->second) ++now.dark_first;
}

void ChainPlacer::place_block(std::size_t chain, Placement& now, std::vector<PlacedChain>* kept) {
  const Chain& own = chains_[chain];
  Placement::OfChain& state = now.chains.at(chain);
  const std::size_t block = state.next - 1;
  const std::size_t first = block == 0 ? 0 : own.ends.at(block - 1), end = own.ends.at(block);
  const auto op = [&](std::size_t i) { return own.ops.begin() + static_cast<std::ptrdiff_t>(i); };
  std::vector<Operation> ops{op(first), op(end)};
  wait_for_vessel(own, ops, first, now);
  const bool is_last = end == own.ops.size();
  const std::span<const Behind> tied = is_last ? std::span{own.tied} : std::span<const Behind>{};
  auto placed = place_together(now.calendar, ops, state.ready, own.vessel, tied);
  if (!placed) note_obstacle(placed.error(), now);
  // Where further loads cannot go in within their wait they go in as soon as they can.
  if (!placed && !now.full && let_loads_wait(ops)) {
    placed = place_together(now.calendar, ops, state.ready, own.vessel, tied);
    if (!placed) note_obstacle(placed.error(), now);
  }
  if (!placed) {
    state.next = own.blocks();
    return leave_out(own, now);
  }
  state.ready = placed->shared.finish;
  go_on(chain, first, end, *placed, now);
  if (kept == nullptr) return;
  PlacedChain& times = kept->at(chain);
  append(times.planned, std::move(placed->shared));
  if (!is_last) return;
  times.tied = std::move(placed->behind);
  times.tied_ready = std::move(placed->ready);
}

void ChainPlacer::go_on(std::size_t chain, std::size_t first, std::size_t end, const PlacedTogether& placed,
                        Placement& now) const {
  const Chain& own = chains_[chain];
  const auto ends_at = [&](std::size_t op) { return placed.shared.operations.at(op - first).end; };
  if (own.in_vessel && first <= own.out_of_vessel && own.out_of_vessel < end) {
    now.chains.at(chain).soaked = ends_at(own.out_of_vessel);
    now.darkness[own.vessel] = own.darkness;
  }
  for (const std::size_t order : own.orders) end_not_before(now.finish.at(order), placed.shared.finish);
  for (const GoesOn& one : own.going) {
    if (one.out.after < first || one.out.after >= end) continue;
    Instant ready = ends_at(one.out.after);
    if (one.tied && !placed.behind.at(*one.tied)) {
      now.not_placed.at(one.order) = true;
      continue;
    }
    if (one.tied) ready = placed.behind.at(*one.tied)->finish;
    end_not_before(now.finish.at(one.order), ready);
    if (!one.chain) continue;
    Placement::OfChain& next = now.chains.at(*one.chain);
    end_not_before(next.ready, ready);
    next.out.push_back(one.out);
    next.out.back().ready = ready;
  }
}

void ChainPlacer::place_rest(std::size_t chain, Placement& now, std::vector<PlacedChain>* kept) {
  const Chain& own = chains_[chain];
  auto all = place_out_of_baths(now.calendar, *own.out, now.chains.at(chain).out);
  if (!all) {
    note_obstacle(all.error(), now);
    return leave_out(own, now);
  }
  for (const PlacedRest& rest : *all) end_not_before(now.finish.at(own.order), rest.planned.finish);
  if (kept != nullptr) kept->at(chain).rests = std::move(*all);
}

}  // namespace blankwright
