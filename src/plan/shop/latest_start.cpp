#include "plan/shop/latest_start.h"

#include <algorithm>
#include <map>
#include <utility>

#include "diagnose/failure.h"
#include "measure/largest_that.h"
#include "plan/shop/bath_times.h"
#include "plan/shop/out_of_baths.h"
#include "plan/shop/place_together.h"
#include "plan/shop/plan_alone.h"
#include "plan/shop/under_way.h"

namespace blankwright {
namespace {

template <class Share>
const Share* share_of(const std::vector<Share>& shares, std::size_t order) {
  const auto found = std::ranges::find(shares, order, &Share::order);
  return found == shares.end() ? nullptr : &*found;
}

/// One of an order's baths, or the blanks that were in one, with what is tied to it.
struct BathLeft {
  std::vector<Operation> ops;
  std::string vessel{};  ///< used in turn
  std::optional<OutOfBath> out{};
  std::vector<Behind> tied{};
  const PlannedBath* planned = nullptr;
};

/// All that is left of one order, to be placed anew.
class Remainder {
 public:
  Remainder(std::size_t order, const PlacedTimes& times, const ShopPlan& plan, std::span<const OrderToMake> orders,
            const Shop& shop, const ShopTime& time)
      : order_{order},
        times_{times},
        plan_{plan},
        orders_{orders.begin(), orders.end()},
        shop_{shop},
        time_{time},
        others_{plan.promised.value()} {
    others_.take_back(times);
    wait_for_running();
    for (const BathUnderWay& bath : plan.under_way) {
      if (const auto* share = share_of(bath.shares, order)) add(bath, *share);
    }
    for (std::size_t number = 0; number < plan.baths.size(); ++number) {
      if (const auto* share = share_of(plan.baths.at(number).shares, order)) add(number, *share);
    }
    const std::size_t shared = shared_operations(own(), times.routing);
    const auto add_rest = [&](std::size_t first, const Batch& batch) {
      if (batch.needs.pieces > 0) by_itself_.push_back(operations(std::span{times.routing}.subspan(first), batch));
    };
    add_rest(shared, cured_of(own(), shared, shop));
    if (baths_.empty()) add_rest(0, not_cured_of(own(), 0, shop));
    for (BathLeft& bath : baths_) count_from_beginning(bath.ops, time.at);
    for (auto& ops : by_itself_) count_from_beginning(ops, time.at);
  }

  /// Is all done by `due` if nothing begins before `from`?
  bool is_in_time(Instant from, Instant due) const {
    ShopCalendar calendar = others_;
    std::vector<OutOfBath> out;
    std::map<const PlannedBath*, Instant> soaked;
    for (const BathLeft& bath : baths_) {
      const auto placed = placed_from(calendar, bath, from, soaked);
      if (!placed || placed->shared.finish > due) return false;
      if (!bath.out) continue;
      out.push_back(*bath.out);
      out.back().ready = placed->shared.operations.at(bath.out->after).end;
      if (bath.tied.empty()) continue;
      if (!placed->behind.front() || placed->behind.front()->finish > due) return false;
      out.back().ready = placed->behind.front()->finish;
    }
    for (const std::vector<Operation>& ops : by_itself_) {
      const auto placed = calendar.place(begun_from(ops, from), std::min(from, time_.at), {});
      if (!placed || placed->finish > due) return false;
    }
    if (out.empty()) return true;
    const auto rest = place_out_of_baths(calendar, in_share(), out);
    return rest && std::ranges::all_of(*rest, [&](const PlacedRest& one) { return one.planned.finish <= due; });
  }

 private:
  const OrderToMake& own() const { return orders_.at(order_); }
  OrderInShare in_share() const { return {own(), shop_, times_.routing}; }

  /// What goes on with some blanks apart from the others ends as planned; they go on from there.
  void wait_for_running() {
    for (const auto& [place, groups] : groups_apart(orders_, shop_)) {
      for (const auto& [order, group] : groups) {
        group->free_from = group->runs_until;
        if (order == order_) {
          for (const PlannedRun& run : times_.planned.operations.at(place.step).runs) {
            if (run.is == RunIs::running && run.at.from == place.begun) group->free_from = run.at.to;
          }
        }
        group->at.next = place.step + 1;
        group->at.begun.reset();
      }
    }
  }

  void add(const BathUnderWay& bath, const BathUnderWay::Share& share) {
    const Batch batch = batch_of(bath, orders_, shop_);
    const std::span routing = std::span{batch.routing}.first(together(batch.routing));
    BathLeft left{operations(routing, batch)};
    if (left.ops.empty()) return;
    left.out = out_of(bath, share, orders_, in_share(), routing, left.ops);
    add(std::move(left));
  }

  void add(std::size_t number, const BlankShare& share) {
    const PlannedBath& bath = plan_.baths.at(number);
    const Batch batch = batch_of(plan_, number, orders_, shop_);
    const std::span routing = std::span{batch.routing}.first(together(batch.routing));
    BathLeft left{operations(routing, batch), bath.bath.vessel->name.value};
    std::vector<const PlannedLoad*> loads;
    for (const auto& load : loads_of(plan_, number, routing, left.ops))
      loads.push_back(load ? &plan_.loads.at(*load) : nullptr);
    left.out = out_of(share, in_share(), routing, left.ops, loads);
    left.planned = &bath;
    add(std::move(left));
  }

  void add(BathLeft left) {
    if (left.out) {
      auto ops = tied_to_bath(*left.out, in_share());
      if (!ops.empty()) left.tied.push_back({order_, std::move(ops), left.out->after});
    }
    baths_.push_back(std::move(left));
  }

  static std::vector<Operation> begun_from(std::vector<Operation> ops, Instant from) {
    for (Operation& op : ops) {
      if (!op.begun) op.earliest = std::max(op.earliest.value_or(from), from);
    }
    return ops;
  }

  std::optional<PlacedTogether> placed_from(ShopCalendar& calendar, const BathLeft& bath, Instant from,
                                            std::map<const PlannedBath*, Instant>& soaked) const {
    std::vector<Operation> ops = begun_from(bath.ops, from);
    if (bath.planned != nullptr) {
      for (const std::size_t other : bath.planned->resin_from) {
        const auto anew = soaked.find(&plan_.baths.at(other));
        const auto in_vessel = std::ranges::find(ops, bath.vessel, &Operation::resource);
        if (anew == soaked.end() || in_vessel == ops.end()) continue;
        in_vessel->earliest = std::max(in_vessel->earliest.value_or(anew->second), anew->second);
      }
      wait_for_resin(plan_, *bath.planned, ops);
    }
    const Instant begin = std::min(from, time_.at);
    auto placed = place_together(calendar, ops, begin, bath.vessel, bath.tied);
    if (!placed && let_loads_wait(ops)) placed = place_together(calendar, ops, begin, bath.vessel, bath.tied);
    if (!placed) return std::nullopt;
    for (std::size_t i = 0; i < ops.size(); ++i) {
      if (bath.planned != nullptr && ops.at(i).resource == bath.vessel)
        soaked[bath.planned] = placed->shared.operations.at(i).end;
    }
    return std::move(*placed);
  }

  std::size_t order_;
  const PlacedTimes& times_;
  const ShopPlan& plan_;
  std::vector<OrderToMake> orders_;
  const Shop& shop_;
  const ShopTime& time_;
  ShopCalendar others_;
  std::vector<BathLeft> baths_;
  std::vector<std::vector<Operation>> by_itself_;
};

bool any_begun(const std::vector<BlankGroup>& waiting) {
  return std::ranges::any_of(waiting, [](const BlankGroup& group) { return group.at.begun.has_value(); });
}

}  // namespace

bool goes_on_apart(std::size_t order, const ShopPlan& plan, std::span<const OrderToMake> orders) {
  const OrderToMake& own = orders[order];
  if (!own.under_way.empty() || any_begun(own.waiting_pieces) || any_begun(own.waiting_witnesses)) return true;
  return std::ranges::count_if(plan.baths,
                               [&](const PlannedBath& bath) { return share_of(bath.shares, order) != nullptr; }) > 1;
}

Delivery delivery_of_all(std::size_t order, const PlacedTimes& times, const ShopPlan& plan,
                         std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time, Instant due) {
  using std::chrono::minutes;
  Delivery result{due, std::nullopt, std::nullopt, late_by(times.planned, due)};
  const auto next = next_start(times.planned);
  if (!next) return result;
  const Remainder left{order, times, plan, orders, shop, time};
  const auto is_in_time = [&](Instant from) { return left.is_in_time(from, due); };
  const bool is_late = result.late_by > minutes{0};
  const Instant first =
      std::chrono::ceil<minutes>(is_late ? std::max(due - planning_horizon, time.calendar.covered().from) : *next);
  if (first <= due && is_in_time(first)) {
    const auto too_late = static_cast<int>(std::chrono::floor<minutes>(due - first).count()) + 1;
    result.latest_start =
        first + minutes{largest_that(0, too_late, [&](int n) { return is_in_time(first + minutes{n}); })};
  } else if (!is_late) {
    result.latest_start = *next;
  }
  if (result.latest_start) result.slack = std::chrono::floor<minutes>(*result.latest_start - *next);
  return result;
}

}  // namespace blankwright
