#include <algorithm>

#include "plan/shop/bath_times.h"
#include "plan/shop/planner.h"

namespace blankwright {

void Planner::make_chains() {
  std::vector<bool> has_bath(orders_.size());
  for (std::size_t number = 0; number < plan_.baths.size(); ++number) {
    chains_.push_back(bath_chain(number));
    for (const BlankShare& share : plan_.baths.at(number).shares) has_bath.at(share.order) = true;
  }
  for (std::size_t i = 0; i < orders_.size(); ++i) {
    if (!has_bath.at(i) && !times(i).under_way) chains_.push_back(chain_of_order(i));
  }
  add_rests();
}

Chain Planner::bath_chain(std::size_t number) {
  PlannedBath& bath = plan_.baths.at(number);
  const Batch batch = batch_of(plan_, number, orders_, shop_);
  bath.drying = std::max(Duration{}, batch.durations.drying - shop_.drying.between_weighings.value);
  const std::span routing = std::span{batch.routing}.first(together(batch.routing));
  Chain chain{number, bath.shares.front().order};
  chain.from = time_.at;
  chain.ops = operations(routing, batch);
  chain.vessel = bath.bath.vessel->name.value;
  chain.darkness = orders_[chain.order].darkness;
  chain.resin_from = bath.resin_from;  // chains of baths have the baths' numbers
  chain.routing.assign(routing.begin(), routing.end());
  chain.durations = batch.durations;
  chain.loads = loads_of(plan_, number, routing, chain.ops);
  for (std::size_t i = 0; i < chain.ops.size(); ++i) {
    if (chain.ops.at(i).resource != chain.vessel) continue;
    if (!chain.in_vessel) chain.in_vessel = i;
    chain.out_of_vessel = i;
  }
  std::vector<const PlannedLoad*> loads;
  for (const auto& load : chain.loads) loads.push_back(load ? &plan_.loads.at(*load) : nullptr);
  for (const BlankShare& share : bath.shares) {
    chain.orders.push_back(share.order);
    if (not_placed_.at(share.order)) continue;
    set_behind(share.order, out_of(share, own_.at(share.order), routing, chain.ops, loads), chain.going, chain.tied);
  }
  wait_for_deliveries(chain);
  count_from_beginning(chain.ops, time_.at);
  cut_into_blocks(chain);
  return chain;
}

/// What has to be ordered is there some time: wood before all else, resin before the vessel.
void Planner::wait_for_deliveries(Chain& chain) const {
  for (const std::size_t i : chain.orders) {
    const OrderToMake& order = orders_[i];
    chain.from = std::max(chain.from, order.wood_from.value_or(chain.from));
    if (!chain.in_vessel || !order.resin_from) continue;
    auto& earliest = chain.ops.at(*chain.in_vessel).earliest;
    earliest = std::max(earliest.value_or(*order.resin_from), *order.resin_from);
  }
}

/// An order that has no bath to come.
Chain Planner::chain_of_order(std::size_t i) const {
  Chain chain{std::nullopt, i, {i}};
  chain.from = time_.at;
  chain.ops = rest_of(i, 0, not_cured_of(orders_[i], 0, shop_));
  wait_for_deliveries(chain);
  count_from_beginning(chain.ops, time_.at);
  cut_into_blocks(chain);
  return chain;
}

/// What orders do behind their baths, those under way among them.
void Planner::add_rests() {
  std::vector<std::vector<std::size_t>> baths(orders_.size());
  for (std::size_t number = 0; number < plan_.baths.size(); ++number) {
    for (const BlankShare& share : plan_.baths.at(number).shares) baths.at(share.order).push_back(number);
  }
  for (std::size_t i = 0; i < orders_.size(); ++i) {
    if (baths.at(i).empty() && !times(i).under_way) continue;
    const auto goes_on = [&](std::size_t number) {
      return std::ranges::find(chains_.at(number).going, i, &GoesOn::order) != chains_.at(number).going.end();
    };
    const bool comes_out = !out_of_baths_.at(i).empty() || std::ranges::any_of(baths.at(i), goes_on);
    if (comes_out && sharing_.behind(i) == BehindBaths::bath_by_bath) {
      add_rest_bath_by_bath(i, baths.at(i));
    } else {
      add_rest(i, baths.at(i));
    }
  }
}

void Planner::add_rest(std::size_t i, std::span<const std::size_t> baths) {
  const std::size_t first = shared_of(i);
  Chain chain{std::nullopt, i, {i}};
  chain.from = time_.at;
  chain.behind.assign(baths.begin(), baths.end());
  chain.there = out_of_baths_.at(i);
  std::vector<OutOfBath> out = chain.there;
  for (const std::size_t number : baths) {
    for (GoesOn& one : chains_.at(number).going) {
      if (one.order != i) continue;
      out.push_back(one.out);
      one.chain = chains_.size();
    }
  }
  OutOfBath all;
  for (const OutOfBath& one : out) {
    all.pieces += one.pieces;
    all.witnesses += one.witnesses;
  }
  for (const OutOfBath& one : chain.there) chain.from = std::max(chain.from, one.ready);
  if (out.empty()) {  // the routing has nothing that is done in a bath
    chain.ops = rest_of(i, first, not_cured_of(orders_[i], first, shop_));
  } else if (out.size() == 1 || sharing_.behind(i) == BehindBaths::in_one_go) {
    chain.ops = behind_bath(all, own_.at(i));
  } else {
    chain.out = &own_.at(i);
  }
  add_rest(std::move(chain));
}

void Planner::add_rest_bath_by_bath(std::size_t i, std::span<const std::size_t> baths) {
  for (const OutOfBath& one : out_of_baths_.at(i)) {
    Chain chain{std::nullopt, i, {i}};
    chain.from = one.ready;
    chain.ops = behind_bath(one, own_.at(i));
    add_rest(std::move(chain));
  }
  for (const std::size_t number : baths) {
    for (std::size_t k = 0; k < chains_.at(number).going.size(); ++k) {
      GoesOn& one = chains_.at(number).going.at(k);
      if (one.order != i) continue;
      one.chain = chains_.size();
      Chain chain{std::nullopt, i, {i}};
      chain.from = time_.at;
      chain.behind = {number};
      chain.ops = behind_bath(one.out, own_.at(i));
      add_rest(std::move(chain));
    }
  }
}

void Planner::add_rest(Chain chain) {
  count_from_beginning(chain.ops, time_.at);
  cut_into_blocks(chain);
  chains_.push_back(std::move(chain));
}

/// What goes on behind a bath, and what of it is tied to the bath.
void Planner::set_behind(std::size_t i, const std::optional<OutOfBath>& out, std::vector<GoesOn>& going,
                         std::vector<Behind>& tied) const {
  if (!out) return;
  GoesOn& one = going.emplace_back(GoesOn{i, *out, {}, {}});
  std::vector<Operation> ops = tied_to_bath(*out, own_.at(i));
  if (ops.empty()) return;
  one.tied = tied.size();
  tied.push_back({i, std::move(ops), out->after});
}

}  // namespace blankwright
