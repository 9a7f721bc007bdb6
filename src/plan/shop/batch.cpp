#include "plan/shop/batch.h"

#include <algorithm>
#include <array>

#include "diagnose/failure.h"
#include "plan/shop/oven_together.h"

namespace blankwright {
namespace {

PlannedDurations longest(const PlannedDurations& a, const PlannedDurations& b) {
  PlannedDurations both{a.treated || b.treated,
                        a.witnessed || b.witnessed,
                        std::max(a.drying, b.drying),
                        std::max(a.cooling, b.cooling),
                        std::max(a.vacuum, b.vacuum),
                        std::max(a.soak, b.soak),
                        std::max(a.cure, b.cure),
                        std::max(a.glue_setting, b.glue_setting),
                        std::max(a.soak_share, b.soak_share),
                        std::max(a.pump_down, b.pump_down),
                        a.pace};
  for (const auto& [facts, pace] : b.pace) {
    double& longer = both.pace.try_emplace(facts, pace).first->second;
    longer = std::max(longer, pace);
  }
  return both;
}

int loads_of(int pieces, const OvenFacts& oven, Length section, Length length) {
  const int room = oven_load(oven, section, length).capacity();
  return room == 0 || pieces == 0 ? 1 : (pieces + room - 1) / room;
}

/// That lie in it at once, where so many go in by as few loads as that takes.
LyingAtOnce at_once(int pieces, int loads, Length section, Length length) {
  return {(pieces + loads - 1) / loads, section, length};
}

/// What the shop has for blanks that go into such an oven.
OperationNeeds needs_of(const OvenFacts* oven, const Shop& shop) {
  OperationNeeds needs;
  needs.pump_alone = shop.pump.unattended.value;
  if (!shop.vessels.empty()) needs.vessel = shop.vessels.front().name.value;
  if (oven != nullptr) {
    needs.oven = oven->name.value;
    needs.drying_alone = oven->unattended_drying.value;
    needs.cure_alone = oven->unattended_curing.value;
  }
  return needs;
}

void add_fresh(OperationNeeds& needs, int pieces, int witnesses) {
  needs.pieces += pieces + witnesses;
  needs.witnesses += witnesses;
}

/// Adds blanks that stand at a step of the needs' routing.
void add_at(OperationNeeds& needs, const BlankGroup& group, std::size_t step) {
  const int blanks = group.pieces + group.witnesses;
  add_fresh(needs, group.pieces, group.witnesses);
  if (step > 0) needs.further.push_back({step, blanks, group.witnesses});
  if (group.free_from) needs.free_from.push_back({step, *group.free_from});
  if (!group.at.begun) return;
  const std::string& in = group.vessel.empty() ? group.oven : group.vessel;
  const auto together = std::ranges::find_if(needs.running, [&](const Running& run) {
    return run.step == step && run.begun == *group.at.begun && run.resource == in;
  });
  if (together != needs.running.end()) {
    together->pieces += blanks;
    together->ends_from = std::max(together->ends_from, group.runs_until);
  } else {
    needs.running.push_back({step, *group.at.begun, blanks, in, group.runs_until});
  }
}

/// Adds blanks that stand somewhere, in a routing that begins at step `first`.
void add(OperationNeeds& needs, const BlankGroup& group, std::size_t first) {
  if (group.at.next < first) {
    add_fresh(needs, group.pieces, group.witnesses);
  } else {
    add_at(needs, group, group.at.next - first);
  }
}

/// A blank of which nothing was entered, or the one that stands there in a list of those that were.
enum class Role { piece, witness };
BlankGroup one_of(const std::vector<BlankGroup>& waiting, int i, Role role) {
  const auto at = static_cast<std::size_t>(i);
  if (at < waiting.size() && waiting.at(at).lowest) return waiting.at(at);
  BlankGroup fresh;
  (role == Role::piece ? fresh.pieces : fresh.witnesses) = 1;
  return fresh;
}

/// Adds blanks of one order to those of a bath, which goes through all that any of its orders does.
void join(Batch& batch, const BlankGroup& group, std::span<const OperationFacts* const> own) {
  const std::size_t next = group.at.next;
  const std::size_t step = next == own.size() ? batch.routing.size() : step_of(own[next], batch.routing).value();
  add_at(batch.needs, group, step);
  for (std::size_t other = step; other < batch.routing.size(); ++other) {
    if (!step_of(batch.routing.at(other), own))
      batch.needs.passed_over.push_back({other, group.pieces + group.witnesses, group.witnesses});
  }
}

/// Those of an order's waiting blanks that a share takes.
void join(Batch& batch, const BlankShare& share, const OrderToMake& order, const Shop& shop) {
  const auto own = routing_of(order.durations, shop);
  for (int i = share.first; i < share.first + share.count; ++i)
    join(batch, one_of(order.waiting_pieces, i, Role::piece), own);
  for (int i = share.first_witness; i < share.first_witness + share.witnesses; ++i)
    join(batch, one_of(order.waiting_witnesses, i, Role::witness), own);
}

/// What of the blanks still has to go through an operation that the plan gives its time, and does not run.
int still_at(PlannedWork work, std::span<const OperationFacts* const> routing, const OperationNeeds& needs) {
  for (std::size_t i = 0; i < routing.size(); ++i) {
    if (!routing[i]->planned || routing[i]->planned->value != work) continue;
    int left = blanks_at(i, needs);
    for (const Running& run : needs.running) left -= run.step == i ? run.pieces : 0;
    return left;
  }
  return 0;
}

void add_all(OperationNeeds& needs, const OrderToMake& order) {
  for (int i = 0; i < order.pieces; ++i) add(needs, one_of(order.waiting_pieces, i, Role::piece), 0);
  for (int i = 0; i < order.witnesses; ++i) add(needs, one_of(order.waiting_witnesses, i, Role::witness), 0);
}

/// Of an order that is in the oven by itself.
void set_loads(OperationNeeds& needs, int pieces, const OrderToMake& order) {
  needs.drying_loads = loads_of(pieces, *order.oven, order.sawn_section, order.sawn_length);
  const LyingAtOnce lying = at_once(pieces, needs.drying_loads, order.sawn_section, order.sawn_length);
  needs.further_ovens = further_ovens(std::array{&order}, *order.oven, lying, lying);
}

/// The largest load of a bath that is planned.
LyingAtOnce largest_load(const ShopPlan& plan, std::size_t bath) {
  LyingAtOnce largest;
  for (const PlannedLoad& load : plan.loads) {
    if (load.bath != bath) continue;
    largest.section = load.layout.section;
    largest.length = load.layout.length;
    int count = 0;
    for (const BlankShare& share : load.shares) count += share.total();
    largest.count = std::max(largest.count, count);
  }
  return largest;
}

/// What orders that are together go through.
template <class Share>
void set_routing(Batch& batch, const std::vector<Share>& shares, std::span<const OrderToMake> orders,
                 const Shop& shop) {
  for (const Share& share : shares) batch.durations = longest(batch.durations, orders[share.order].durations);
  batch.routing = routing_of(batch.durations, shop);
}

}  // namespace

Batch batch_of(const ShopPlan& plan, std::size_t number, std::span<const OrderToMake> orders, const Shop& shop) {
  const PlannedBath& bath = plan.baths.at(number);
  const OvenFacts* oven = oven_together(bath.shares, orders);
  Batch batch{{}, needs_of(oven, shop)};
  set_routing(batch, bath.shares, orders, shop);
  Length section{}, length{};
  for (const BlankShare& share : bath.shares) {
    const OrderToMake& order = orders[share.order];
    section = std::max(section, order.sawn_section);
    length = std::max(length, order.sawn_length);
    join(batch, share, order, shop);
  }
  batch.needs.vessel = bath.bath.vessel->name.value;
  const auto loads = std::ranges::count(plan.loads, number, &PlannedLoad::bath);
  batch.needs.cure_loads = std::max(1, static_cast<int>(loads));
  if (oven != nullptr) {
    const int left = still_at(PlannedWork::drying, batch.routing, batch.needs);
    batch.needs.drying_loads = loads_of(left, *oven, section, length);
    batch.needs.further_ovens =
        further_ovens(orders_of(bath.shares, orders), *oven, at_once(left, batch.needs.drying_loads, section, length),
                      largest_load(plan, number));
  }
  return batch;
}

Batch batch_of(const BathUnderWay& bath, std::span<const OrderToMake> orders, const Shop& shop) {
  const OvenFacts* oven = oven_together(bath.shares, orders);
  Batch batch{{}, needs_of(oven, shop)};
  set_routing(batch, bath.shares, orders, shop);
  Length section{}, length{};
  Duration held{};
  for (const BathUnderWay::Share& share : bath.shares) {
    const OrderToMake& order = orders[share.order];
    const auto own = routing_of(order.durations, shop);
    section = std::max(section, order.blank.section);
    length = std::max(length, order.blank.length);
    for (const BlankGroup& group : share.groups) {
      join(batch, group, own);
      if (!group.vessel.empty()) batch.needs.vessel = group.vessel;
      held = std::max(held, group.held);
    }
  }
  batch.durations.soak = std::max(batch.durations.soak, batch.durations.soak_share * held);
  if (oven != nullptr && section > Length{}) {
    const int left = still_at(PlannedWork::cure, batch.routing, batch.needs);
    batch.needs.cure_loads = loads_of(left, *oven, section, length);
    const LyingAtOnce lying = at_once(left, batch.needs.cure_loads, section, length);
    batch.needs.further_ovens = further_ovens(orders_of(bath.shares, orders), *oven, lying, lying);
  }
  return batch;
}

Batch batch_of(std::span<const GroupApart> groups, std::size_t step, std::span<const OrderToMake> orders,
               const Shop& shop) {
  Batch batch{{}, needs_of(orders[groups.front().order].oven, shop)};
  for (const auto& [order, group] : groups) {
    batch.durations = longest(batch.durations, orders[order].durations);
    add(batch.needs, *group, step);
  }
  return batch;
}

int still_open(const BlankShare& share, const OrderToMake& order, std::size_t step) {
  const auto further = [step](const std::vector<BlankGroup>& waiting, int first, int count) {
    int gone = 0;
    for (int i = first; i < first + count && i < std::ssize(waiting); ++i) {
      if (waiting.at(static_cast<std::size_t>(i)).at.next > step) ++gone;
    }
    return gone;
  };
  return share.total() - further(order.waiting_pieces, share.first, share.count) -
         further(order.waiting_witnesses, share.first_witness, share.witnesses);
}

std::vector<Operation> operations(std::span<const OperationFacts* const> routing, const Batch& batch) {
  return operations(routing, batch.durations, batch.needs);
}

bool witnesses_go_on(const OrderToMake& order, std::size_t shared, const Shop& shop) {
  const auto routing = routing_of(order.durations, shop);
  return shared == 0 || witnesses_go_beyond(std::span{routing}.subspan(shared));
}

Batch alone(const OrderToMake& order, const Shop& shop) {
  Batch batch{order.durations, needs_of(order.oven, shop)};
  add_all(batch.needs, order);
  for (const BlankGroup& group : order.under_way) add(batch.needs, group, 0);
  if (order.oven != nullptr) {
    const int pieces = order.pieces + order.witnesses;
    set_loads(batch.needs, pieces, order);
    batch.needs.cure_loads = batch.needs.drying_loads;
  }
  return batch;
}

Batch cured_of(const OrderToMake& order, std::size_t shared, const Shop& shop) {
  Batch batch{order.durations, needs_of(order.oven, shop)};
  const bool with_witnesses = witnesses_go_on(order, shared, shop);
  for (BlankGroup group : order.under_way) {
    if (!with_witnesses) group.witnesses = 0;
    if (group.at.next >= shared && group.pieces + group.witnesses > 0) add(batch.needs, group, shared);
  }
  return batch;
}

Batch not_cured_of(const OrderToMake& order, std::size_t shared, const Shop& shop) {
  Batch batch{order.durations, needs_of(order.oven, shop)};
  const bool with_witnesses = witnesses_go_on(order, shared, shop);
  if (shared > 0) {
    add_fresh(batch.needs, order.pieces, with_witnesses ? order.witnesses : 0);
  } else {
    add_all(batch.needs, order);
  }
  for (const BlankGroup& group : order.under_way) {
    if (group.at.next < shared) add_fresh(batch.needs, group.pieces, with_witnesses ? group.witnesses : 0);
  }
  if (order.oven != nullptr) {
    const auto routing = routing_of(order.durations, shop);
    const int left = still_at(PlannedWork::drying, std::span{routing}.subspan(shared), batch.needs);
    set_loads(batch.needs, left, order);
  }
  return batch;
}

Batch batch_of(const OutOfBath& blanks, const OrderToMake& order, const Shop& shop) {
  Batch batch{order.durations, needs_of(order.oven, shop)};
  add_fresh(batch.needs, blanks.pieces, blanks.witnesses);
  return batch;
}

std::optional<std::size_t> step_of(const OperationFacts* facts, std::span<const OperationFacts* const> own) {
  const auto found = std::ranges::find(own, facts);
  return found == own.end() ? std::nullopt : std::optional{static_cast<std::size_t>(found - own.begin())};
}

std::vector<Operation> operations_of(const OrderToMake& order, const PlacedTimes& times, const ShopPlan& plan,
                                     std::span<const OrderToMake> orders, const Shop& shop) {
  const std::span routing{times.routing};
  const bool in_bath = times.bath || times.under_way;
  const std::size_t shared = together(times.routing);
  if (!in_bath && order.under_way.empty()) return operations(routing, alone(order, shop));
  std::vector<Operation> ops;
  if (in_bath) {
    const Batch batch = times.bath ? batch_of(plan, *times.bath, orders, shop)
                                   : batch_of(plan.under_way.at(*times.under_way), orders, shop);
    const std::size_t together_steps = together(batch.routing);
    ops = operations(std::span{batch.routing}.first(together_steps), batch);
    // What is done to others of the bath alone is waited for, and is no step of the order's own.
    for (Operation& op : ops)
      op.step = step_of(batch.routing.at(op.step), routing).value_or(routing.size() + op.step);
  }
  const Batch rest = in_bath ? not_cured_of(order, shared, shop) : cured_of(order, shared, shop);
  for (Operation& op : operations(routing.subspan(shared), rest)) {
    op.step += shared;
    ops.push_back(std::move(op));
  }
  return ops;
}

Operation whole_operation(const OperationFacts& facts, const OrderToMake& order, const Shop& shop) {
  Batch batch{order.durations, needs_of(order.oven, shop)};
  add_fresh(batch.needs, order.started, order.witnesses_started);
  const std::array routing{&facts};
  const auto ops = operations(routing, batch);
  BW_EXPECT(!ops.empty());
  return ops.front();
}

}  // namespace blankwright
