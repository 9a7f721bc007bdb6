#include "plan/shop/bath_times.h"

#include <algorithm>
#include <numeric>

#include "measure/elapsed.h"
#include "plan/shop/loads.h"

namespace blankwright {

std::vector<std::optional<std::size_t>> loads_of(const ShopPlan& plan, std::size_t bath,
                                                 std::span<const OperationFacts* const> routing,
                                                 std::span<const Operation> ops) {
  std::vector<std::optional<std::size_t>> loads(ops.size());
  auto load = static_cast<std::size_t>(std::ranges::find(plan.loads, bath, &PlannedLoad::bath) - plan.loads.begin());
  for (std::size_t i = 0; i < ops.size(); ++i) {
    const auto& work = routing[ops[i].step]->planned;
    if (!work || work->value != PlannedWork::cure || load == plan.loads.size()) continue;
    if (plan.loads.at(load).bath == bath) loads.at(i) = load++;
  }
  return loads;
}

void note_load_times(ShopPlan& plan, std::span<const std::optional<std::size_t>> loads, const OrderSchedule& planned,
                     std::span<const OrderToMake> orders) {
  for (std::size_t i = 0; i < loads.size(); ++i) {
    if (!loads[i]) continue;
    PlannedLoad& load = plan.loads.at(*loads[i]);
    const PlannedOperation& done = planned.operations.at(i);
    load.cure = Interval{done.start, done.end};
    move_to(done.runs.front().resource, load, orders);
  }
}

int blanks_of_go(std::span<const int> of_shares, std::size_t share, std::span<const Operation> ops, std::size_t i) {
  const int all = std::accumulate(of_shares.begin(), of_shares.end(), 0);
  const int before = std::accumulate(of_shares.begin(), of_shares.begin() + static_cast<std::ptrdiff_t>(share), 0);
  const auto is_go = [&](const Operation& op) { return op.step == ops[i].step && !op.begun; };
  const auto goes = static_cast<int>(std::ranges::count_if(ops, is_go));
  int go = 0, from = 0, to = 0;
  for (std::size_t k = 0; k <= i; ++k) {
    if (!is_go(ops[k])) continue;
    from = to;
    to += ops[k].day > 0 ? ops[k].pieces : all / goes + (go < all % goes ? 1 : 0);
    ++go;
  }
  return std::max(0, std::min(to, before + of_shares[share]) - std::max(from, before));
}

void note_bath_times(PlannedBath& bath, std::span<const OperationFacts* const> routing,
                     const PlannedDurations& durations, const OrderSchedule& planned) {
  for (std::size_t i = 0; i < planned.operations.size(); ++i) {
    const auto& work = routing[i]->planned;
    const Interval at{planned.operations.at(i).start, planned.operations.at(i).end};
    if (work && work->value == PlannedWork::vacuum) bath.vacuum = at;
    if (work && work->value == PlannedWork::soak) bath.soak = at;
  }
  bath.hold = durations.vacuum - durations.pump_down;
  bath.least_soak = durations.soak;
  if (!bath.vacuum || durations.soak_share <= 0) return;
  bath.hold = std::max(bath.hold, between(bath.vacuum->from, bath.vacuum->to) - durations.pump_down);
  bath.least_soak = std::max(bath.least_soak, durations.soak_share * bath.hold);
}

void wait_for_resin(const ShopPlan& plan, const PlannedBath& bath, std::vector<Operation>& ops) {
  const auto in_vessel = std::ranges::find(ops, bath.bath.vessel->name.value, &Operation::resource);
  if (in_vessel == ops.end()) return;
  for (const std::size_t other : bath.resin_from) {
    const auto& soak = plan.baths.at(other).soak;
    if (soak) in_vessel->earliest = std::max(in_vessel->earliest.value_or(soak->to), soak->to);
  }
}

void note_age_of_resin(const ShopPlan& plan, PlannedBath& bath, const Zone& zone) {
  const auto not_after = [&](std::optional<Date> day) {
    if (day) bath.activated = std::min(bath.activated.value_or(*day), *day);
  };
  if (bath.vacuum) not_after(date_of(zone, bath.vacuum->from));
  for (const std::size_t other : bath.resin_from) not_after(plan.baths.at(other).activated);
}

}  // namespace blankwright
