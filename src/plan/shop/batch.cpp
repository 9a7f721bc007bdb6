#include "plan/shop/batch.h"

#include <algorithm>

namespace blankwright {
namespace {

PlannedDurations longest(const PlannedDurations& a, const PlannedDurations& b) {
  return {a.treated || b.treated,
          a.witnessed || b.witnessed,
          std::max(a.drying, b.drying),
          std::max(a.cooling, b.cooling),
          std::max(a.vacuum, b.vacuum),
          std::max(a.soak, b.soak),
          std::max(a.cure, b.cure),
          std::max(a.glue_setting, b.glue_setting),
          std::max(a.soak_share, b.soak_share),
          std::max(a.pump_down, b.pump_down)};
}

int loads_of(int pieces, const OvenFacts& oven, Length section, Length length) {
  const int room = oven_load(oven, section, length).capacity();
  return room == 0 ? 1 : (pieces + room - 1) / room;
}

OperationNeeds needs_of(const OrderToMake& order, const Shop& shop, int pieces, int witnesses) {
  OperationNeeds needs{.pieces = pieces, .witnesses = witnesses};
  needs.pump_alone = shop.pump.unattended.value;
  if (order.oven != nullptr) {
    needs.oven = order.oven->name.value;
    needs.drying_alone = order.oven->unattended_drying.value;
    needs.cure_alone = order.oven->unattended_curing.value;
  }
  return needs;
}

}  // namespace

std::size_t together(const std::vector<const OperationFacts*>& routing) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < routing.size(); ++i) {
    const auto& planned = routing.at(i)->planned;
    if (!planned || planned->value == PlannedWork::glue_setting) continue;
    count = i + 1;
  }
  return count;
}

Batch batch_of(const ShopPlan& plan, std::size_t number, std::span<const OrderToMake> orders, const Shop& shop) {
  const PlannedBath& bath = plan.baths.at(number);
  Batch batch;
  int pieces = 0, witnesses = 0;
  Length section{}, length{};
  for (const BlankShare& share : bath.shares) {
    const OrderToMake& order = orders[share.order];
    batch.durations = longest(batch.durations, order.durations);
    section = std::max(section, order.sawn_section);
    length = std::max(length, order.sawn_length);
    pieces += share.total();
    witnesses += share.witnesses;
  }
  const OrderToMake& first = orders[bath.shares.front().order];
  batch.needs = needs_of(first, shop, pieces, witnesses);
  if (first.oven != nullptr) batch.needs.drying_loads = loads_of(pieces, *first.oven, section, length);
  batch.needs.vessel = bath.bath.vessel->name.value;
  const auto loads = std::ranges::count(plan.loads, number, &PlannedLoad::bath);
  batch.needs.cure_loads = std::max(1, static_cast<int>(loads));
  return batch;
}

std::vector<Operation> operations(std::span<const OperationFacts* const> routing, const Batch& batch) {
  return operations(routing, batch.durations, batch.needs);
}

Batch alone(const OrderToMake& order, const Shop& shop) {
  const int pieces = order.pieces + order.witnesses;
  Batch batch{order.durations, needs_of(order, shop, pieces, order.witnesses)};
  if (order.oven != nullptr) {
    batch.needs.drying_loads = loads_of(pieces, *order.oven, order.sawn_section, order.sawn_length);
    batch.needs.cure_loads = batch.needs.drying_loads;
  }
  if (!shop.vessels.empty()) batch.needs.vessel = shop.vessels.front().name.value;
  return batch;
}

std::vector<Operation> operations_of(const OrderToMake& order, const PlacedTimes& times, const ShopPlan& plan,
                                     std::span<const OrderToMake> orders, const Shop& shop) {
  const std::span routing{times.routing};
  if (!times.bath) return operations(routing, alone(order, shop));
  const std::size_t shared = together(times.routing);
  std::vector<Operation> ops = operations(routing.first(shared), batch_of(plan, *times.bath, orders, shop));
  for (Operation& op : operations(routing.subspan(shared), alone(order, shop))) {
    op.step += shared;
    ops.push_back(std::move(op));
  }
  return ops;
}

}  // namespace blankwright
