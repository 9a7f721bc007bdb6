#pragma once

#include <span>
#include <vector>

#include "plan/shop/batch.h"
#include "plan/shop/baths.h"
#include "plan/shop/place_chains.h"
#include "plan/shop/shop_plan.h"
#include "plan/shop/shop_time.h"
#include "plan/shop/under_way.h"

namespace blankwright {

/// Plans all orders of a plan whose baths and loads are formed: places what is under way, makes chains of what is to
/// come, and writes down their times once they are placed.
class Planner {
 public:
  /// What is given outlives it.
  Planner(std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time, const Sharing& sharing,
          ShopPlan& plan);
  Planner(const Planner&) = delete;
  Planner& operator=(const Planner&) = delete;

  /// Baths in the order in which they were formed, orders that have none to come, then what orders do behind baths.
  std::span<const Chain> chains() const { return chains_; }
  /// Nothing but what is under way is placed.
  Placement begin(const ChainPlacer& placer) const;
  /// All chains are placed.
  void write(Placement placed, std::vector<PlacedChain> times);

 private:
  // planner.cpp
  void begin_order(std::size_t i);
  void place_apart(std::size_t step, std::span<const GroupApart> groups);
  std::size_t tied_to_all(std::size_t step, std::span<const GroupApart> groups);
  void place_under_way(std::size_t number);
  void place_cured();
  std::optional<OrderSchedule> placed(std::vector<Operation> ops, Instant from);
  std::optional<PlacedTogether> placed_together(std::vector<Operation> ops, std::span<const Behind> tied);
  std::vector<Instant> finish_so_far() const;

  // planner_chains.cpp
  void make_chains();
  Chain bath_chain(std::size_t number);
  Chain chain_of_order(std::size_t i) const;
  void wait_for_deliveries(Chain& chain) const;
  void add_rests();
  void add_rest(std::size_t i, std::span<const std::size_t> baths);
  void add_rest_bath_by_bath(std::size_t i, std::span<const std::size_t> baths);
  void add_rest(Chain chain);
  void set_behind(std::size_t i, const std::optional<OutOfBath>& out, std::vector<GoesOn>& going,
                  std::vector<Behind>& tied) const;

  // planner_times.cpp
  void number_baths();
  void write_bath(const Chain& chain, PlacedChain& placed);
  static bool is_complete(const Chain& chain, const PlacedChain& times);
  void note_bath(const Chain& chain, const PlacedChain& times);
  void write_tied(std::span<const GoesOn> going, std::span<const Behind> tied,
                  std::span<const std::optional<OrderSchedule>> placed, std::span<const Instant> ready);
  void write_own(const Chain& chain, PlacedChain placed);
  void finish(std::size_t i);
  int blanks_at(const BlankShare& share, const OperationFacts* facts, std::optional<std::size_t> load) const;
  int blanks_of_run(const PlannedBath& bath, const BlankShare& share, std::span<const OperationFacts* const> routing,
                    std::span<const Operation> ops, std::size_t i) const;
  void add(std::size_t i, std::size_t first, std::span<const Operation> ops, OrderSchedule planned);

  /// What one order goes through with others, of a routing that may have more: where it has blanks, as `tell` has it.
  void add_own(std::size_t i, std::span<const OperationFacts* const> routing, std::span<const Operation> ops,
               const OrderSchedule& planned, const auto& tell) {
    std::vector<Operation> own_ops;
    OrderSchedule own{{}, planned.finish};
    for (std::size_t k = 0; k < ops.size(); ++k) {
      PlannedOperation done = planned.operations.at(k);
      for (PlannedRun& run : done.runs) tell(run, k);
      if (done.runs.front().blanks == 0) continue;
      own_ops.push_back(ops[k]);
      own_ops.back().step = step_of(routing[ops[k].step], times(i).routing).value();
      own.operations.push_back(std::move(done));
    }
    add(i, 0, own_ops, std::move(own));
  }

  PlacedTimes& times(std::size_t i) { return *plan_.orders.at(i).times; }
  const PlacedTimes& times(std::size_t i) const { return *plan_.orders.at(i).times; }
  std::size_t shared_of(std::size_t i) const { return shared_operations(orders_[i], times(i).routing); }
  Diagnostics& said(std::size_t i) { return plan_.orders.at(i).said; }
  /// The operations that blanks of an order go through by themselves, from number `first` on.
  std::vector<Operation> rest_of(std::size_t i, std::size_t first, const Batch& batch) const;

  std::vector<OrderToMake> orders_;  ///< what goes on with some of their blanks apart from the others is placed first
  const Shop& shop_;
  const ShopTime& time_;
  const Sharing& sharing_;
  ShopPlan& plan_;
  ShopCalendar calendar_;
  std::vector<OrderInShare> own_;                     ///< each of the orders
  std::vector<std::vector<OutOfBath>> out_of_baths_;  ///< an order's blanks, bath by bath, of what is under way
  std::vector<bool> not_placed_;                      ///< the calendar had no room for a part of the order
  bool full_ = false;
  std::vector<Chain> chains_;
};

}  // namespace blankwright
