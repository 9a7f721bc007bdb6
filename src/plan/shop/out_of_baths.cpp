#include "plan/shop/out_of_baths.h"

#include <algorithm>
#include <array>

#include "plan/shop/bath_times.h"

namespace blankwright {
namespace {

using PlacedRests = tl::expected<std::vector<PlacedRest>, Obstacle>;

std::span<const OperationFacts* const> behind_baths(const OrderInShare& own) {
  return std::span{own.routing}.subspan(shared_operations(own.order, own.routing));
}

int going_on(int witnesses, const OrderInShare& own) {
  return witnesses_go_on(own.order, shared_operations(own.order, own.routing), own.shop) ? witnesses : 0;
}

/// The last of these that blanks go through, if any goes on.
std::optional<OutOfBath> out_after(OutOfBath out, std::span<const Operation> ops, const auto& blanks) {
  for (std::size_t i = ops.size(); out.pieces + out.witnesses > 0 && i-- > 0;) {
    if (blanks(i) == 0) continue;
    out.after = i;
    return out;
  }
  return std::nullopt;
}

/// How many of a share's blanks an operation runs with since `begun`, or else is to begin for.
int blanks_at(const BathUnderWay::Share& share, std::span<const OperationFacts* const> own,
              const OperationFacts* facts, std::optional<Instant> begun) {
  const auto step = step_of(facts, own);
  if (!step) return 0;
  int count = 0;
  for (const BlankGroup& group : share.groups) {
    const bool runs = group.at.next == *step && group.at.begun;
    const bool is_meant = begun ? runs && group.at.begun == begun : group.at.next <= *step && !runs;
    if (is_meant) count += group.pieces + group.witnesses;
  }
  return count;
}

PlacedRests placed_by_bath(ShopCalendar& calendar, const OrderInShare& own, std::span<const OutOfBath> baths) {
  std::vector<PlacedRest> all;
  for (const OutOfBath& blanks : baths) {
    std::vector<Operation> ops = behind_bath(blanks, own);
    if (ops.empty()) continue;
    auto planned = calendar.place(ops, blanks.ready, {});
    if (!planned) return tl::unexpected{planned.error()};
    all.push_back({std::move(ops), std::move(*planned)});
  }
  return all;
}

Instant finish_of(const std::vector<PlacedRest>& all) {
  Instant finish{};
  for (const PlacedRest& one : all) finish = std::max(finish, one.planned.finish);
  return finish;
}

}  // namespace

int blanks_at(const BlankShare& share, const OrderInShare& own, const OperationFacts* facts,
              const PlannedLoad* load) {
  const auto step = step_of(facts, own.routing);
  if (!step) return 0;
  if (load == nullptr) return still_open(share, own.order, *step);
  const auto in_load = std::ranges::find(load->shares, share.order, &BlankShare::order);
  return in_load == load->shares.end() ? 0 : in_load->total();
}

int blanks_of_run(const BathUnderWay& bath, const BathUnderWay::Share& share, std::span<const OrderToMake> orders,
                  const Shop& shop, std::span<const OperationFacts* const> routing, std::span<const Operation> ops,
                  std::size_t i) {
  std::vector<int> of_shares;
  std::size_t own = 0;
  for (const BathUnderWay::Share& other : bath.shares) {
    if (other.order == share.order) own = of_shares.size();
    const auto others = routing_of(orders[other.order].durations, shop);
    of_shares.push_back(blanks_at(other, others, routing[ops[i].step], ops[i].begun));
  }
  return ops[i].begun ? of_shares.at(own) : blanks_of_go(of_shares, own, ops, i);
}

std::optional<OutOfBath> out_of(const BlankShare& share, const OrderInShare& own,
                                std::span<const OperationFacts* const> routing, std::span<const Operation> ops,
                                std::span<const PlannedLoad* const> loads) {
  // A load where only witnesses of it lie that end with the cure lets nothing go on.
  const auto lets_go_on = [&](const PlannedLoad* load) {
    if (load == nullptr) return true;
    const auto in_load = std::ranges::find(load->shares, share.order, &BlankShare::order);
    return in_load == load->shares.end() || in_load->count > 0 || going_on(1, own) > 0;
  };
  return out_after({0, share.count, going_on(share.witnesses, own), {}}, ops, [&](std::size_t i) {
    return lets_go_on(loads[i]) ? blanks_at(share, own, routing[ops[i].step], loads[i]) : 0;
  });
}

std::optional<OutOfBath> out_of(const BathUnderWay& bath, const BathUnderWay::Share& share,
                                std::span<const OrderToMake> orders, const OrderInShare& own,
                                std::span<const OperationFacts* const> routing, std::span<const Operation> ops) {
  OutOfBath out;
  for (const BlankGroup& group : share.groups) {
    out.pieces += group.pieces;
    out.witnesses += going_on(group.witnesses, own);
  }
  return out_after(out, ops,
                   [&](std::size_t i) { return blanks_of_run(bath, share, orders, own.shop, routing, ops, i); });
}

std::vector<Operation> tied_to_bath(const OutOfBath& blanks, const OrderInShare& own) {
  const auto following = behind_baths(own);
  const std::size_t steps = tied(following);
  if (steps == 0) return {};
  std::vector<Operation> ops = operations(following, batch_of(blanks, own.order, own.shop));
  std::erase_if(ops, [&](const Operation& op) { return op.step >= steps; });
  return ops;
}

std::vector<Operation> behind_bath(const OutOfBath& blanks, const OrderInShare& own) {
  const auto following = behind_baths(own);
  const std::size_t first = tied(following);
  std::vector<Operation> ops = operations(following, batch_of(blanks, own.order, own.shop));
  std::erase_if(ops, [&](const Operation& op) { return op.step < first; });
  return ops;
}

PlacedRests place_out_of_baths(ShopCalendar& calendar, const OrderInShare& own, std::span<const OutOfBath> baths) {
  if (baths.size() == 1) return placed_by_bath(calendar, own, baths);
  std::vector<OutOfBath> by_time{baths.begin(), baths.end()};
  std::ranges::stable_sort(by_time, {}, &OutOfBath::ready);
  OutOfBath all;
  for (const OutOfBath& one : by_time) {
    all.ready = one.ready;
    all.pieces += one.pieces;
    all.witnesses += one.witnesses;
  }
  ShopCalendar in_one_go = calendar, by_bath = calendar;
  auto together = placed_by_bath(in_one_go, own, std::array{all});
  auto apart = placed_by_bath(by_bath, own, by_time);
  if (apart && (!together || finish_of(*apart) < finish_of(*together))) {
    calendar = std::move(by_bath);
    return apart;
  }
  if (together) calendar = std::move(in_one_go);
  return together;
}

}  // namespace blankwright
