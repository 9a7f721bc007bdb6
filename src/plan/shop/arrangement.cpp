#include "plan/shop/arrangement.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "plan/shop/loads.h"

namespace blankwright {
namespace {

std::unique_ptr<ShopPlan> formed(const ToPlan& given, const Sharing& sharing, Diagnostics& out) {
  auto plan = std::make_unique<ShopPlan>();
  plan->under_way = baths_under_way(given.orders, given.shop);
  plan->baths = form_baths(given.orders, sharing, given.shop, given.time, out);
  for (std::size_t i = 0; i < plan->baths.size(); ++i)
    std::ranges::move(form_loads(plan->baths.at(i), i, given.orders), std::back_inserter(plan->loads));
  return plan;
}

SequenceSearch::Found better(SequenceSearch& search, SequenceSearch::Found one, Sequence other) {
  if (other == one.sequence) return one;
  const Punctuality punctual = search.punctual(other);
  return punctual < one.punctual ? SequenceSearch::Found{std::move(other), punctual} : one;
}

bool are_same_blocks(std::span<const Chain> some, std::span<const Chain> others) {
  return std::ranges::equal(some, others, {}, &Chain::blocks, &Chain::blocks);
}

}  // namespace

ToPlan to_plan(std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time) {
  ToPlan out{orders, shop, time, {time.at, {}}};
  for (const OrderToMake& order : orders)
    out.dues.of.push_back(order.due ? end_of_work(time.working, order.due->value) : std::nullopt);
  return out;
}

Arrangement::Arrangement(const ToPlan& to_plan, Sharing sharing, Diagnostics& out)
    : given_{&to_plan},
      sharing_{std::make_unique<Sharing>(std::move(sharing))},
      plan_{formed(to_plan, *sharing_, out)},
      planner_{std::make_unique<Planner>(to_plan.orders, to_plan.shop, to_plan.time, *sharing_, *plan_)},
      placer_{planner_->chains()},
      before_{to_plan.orders},
      begin_{planner_->begin(placer_)},
      behind_holding_{begin_} {
  holding_.sequence =
      before_.as_before(sequence_by_dye(planner_->chains(), to_plan.orders, true), planner_->chains());
  others_.sequence = sequence_by_dye(planner_->chains(), to_plan.orders, false);
  see_until_when();
}

bool Arrangement::is_in_several_baths(std::size_t order) const {
  const auto is_in = [&](const PlannedBath& bath) {
    return std::ranges::find(bath.shares, order, &BlankShare::order) != bath.shares.end();
  };
  return std::ranges::count_if(plan_->baths, is_in) > 1;
}

void Arrangement::begin_within(Instant until) {
  begin_ = planner_->begin(placer_);
  begin_.calendar = begin_.calendar.within({given_->time.at - std::chrono::days{1}, until});
}

/// Planned with some weeks alone it is the same, and much quicker; with more, where these have no room for all.
void Arrangement::see_until_when() {
  Sequence all = holding_.sequence;
  all.insert(all.end(), others_.sequence.begin(), others_.sequence.end());
  for (std::chrono::days span{60};; span *= 4) {
    begin_within(given_->time.at + std::min(span, planning_horizon));
    const Punctuality punctual = SequenceSearch{placer_, begin_, given_->dues}.punctual(all);
    if (punctual.without_room > 0 && span < planning_horizon) continue;
    const std::chrono::minutes enough = punctual.finish * 3 / 2 + std::chrono::days{21};
    begin_within(given_->time.at + std::min<std::chrono::minutes>(enough, planning_horizon));
    return;
  }
}

void Arrangement::begin(std::size_t most_placed) {
  SequenceSearch search{placer_, begin_, given_->dues};
  holding_.punctual = search.punctual(holding_.sequence);
  if (holding_.punctual.late > std::chrono::minutes{0}) {
    if (before_.end() == 0)
      holding_ = better(search, std::move(holding_), sequence_by_date(planner_->chains(), given_->orders, true));
    holding_ = search.less_late(std::move(holding_), most_placed);
  }
  place_others();
}

void Arrangement::begin_like(const Arrangement& other) {
  holding_.sequence = like(holding_.sequence, other, other.holding_.sequence);
  place_others();
  SequenceSearch search{placer_, behind_holding_, given_->dues};
  others_ = better(search, std::move(others_), like(others_.sequence, other, other.others_.sequence));
}

void Arrangement::place_others() {
  behind_holding_ = SequenceSearch{placer_, begin_, given_->dues}.placed(holding_.sequence);
  SequenceSearch search{placer_, behind_holding_, given_->dues};
  others_.punctual = search.punctual(others_.sequence);
  others_ = better(search, std::move(others_), sequence_by_date(planner_->chains(), given_->orders, false));
}

/// A sequence as another arrangement has it.
Sequence Arrangement::like(const Sequence& sequence, const Arrangement& other, const Sequence& theirs) const {
  const auto chains = planner_->chains(), others = other.planner_->chains();
  // Where the other arrangement has an order's n-th block, before or behind its baths.
  std::map<std::tuple<std::size_t, bool, std::size_t>, std::size_t> places;
  std::vector<std::size_t> next(others.size());
  for (std::size_t place = 0; place < theirs.size(); ++place) {
    const std::size_t chain = theirs.at(place);
    const std::size_t block = next.at(chain)++;
    for (const std::size_t order : others[chain].orders)
      places.try_emplace({order, others[chain].behind.empty(), block}, place);
  }
  std::vector<std::pair<std::size_t, std::size_t>> by_place;  // and chain
  next.assign(chains.size(), 0);
  for (const std::size_t chain : sequence) {
    const std::size_t block = next.at(chain)++;
    std::size_t place = theirs.size();
    for (const std::size_t order : chains[chain].orders) {
      const auto found = places.find({order, chains[chain].behind.empty(), block});
      if (found != places.end()) place = std::min(place, found->second);
    }
    by_place.emplace_back(place, chain);
  }
  std::ranges::stable_sort(by_place, {}, &std::pair<std::size_t, std::size_t>::first);
  Sequence out;
  for (const auto& [place, chain] : by_place) out.push_back(chain);
  return out;
}

void Arrangement::look_for_better(std::size_t most_placed) {
  SequenceSearch search{placer_, behind_holding_, given_->dues};
  // Of many orders it takes as long as to look for a better sequence, and one that is in several baths may be done
  // sooner than bath by bath.
  constexpr std::size_t few = 12;
  bool can_be_reached = given_->orders.size() <= few;
  for (std::size_t i = 0; i < given_->orders.size(); ++i) can_be_reached = can_be_reached && !is_in_several_baths(i);
  others_ =
      search.best(std::move(others_), most_placed, can_be_reached ? search.least(others_.sequence) : Punctuality{});
}

Placement Arrangement::placed_with(std::span<const OrderToMake> orders, Instant until) const {
  ShopPlan plan = *plan_;
  const Planner planner{orders, given_->shop, given_->time, *sharing_, plan};
  ChainPlacer placer{planner.chains()};
  Placement now = planner.begin(placer);
  now.calendar = now.calendar.within({given_->time.at - std::chrono::days{1}, until});
  if (!are_same_blocks(planner.chains(), planner_->chains())) {
    now.not_placed.assign(orders.size(), true);
    return now;
  }
  for (const Sequence* some : {&holding_.sequence, &others_.sequence}) {
    for (const std::size_t chain : *some) placer.place_next(chain, now);
  }
  return now;
}

ShopPlan Arrangement::finished() && {
  Placement placed = planner_->begin(placer_);
  std::vector<PlacedChain> times(planner_->chains().size());
  for (const Sequence* some : {&holding_.sequence, &others_.sequence}) {
    for (const std::size_t chain : *some) placer_.place_next(chain, placed, &times);
  }
  planner_->write(std::move(placed), std::move(times));
  const auto chains = planner_->chains();
  const std::size_t next = before_.note(holding_.sequence, 0, chains, *plan_);
  before_.note(others_.sequence, std::max(next, before_.end()), chains, *plan_);
  return std::move(*plan_);
}

}  // namespace blankwright
