#pragma once

#include <span>
#include <vector>

#include "plan/shop/baths.h"
#include "plan/shop/kept_plan.h"
#include "plan/shop/place_chains.h"

namespace blankwright {

/// The turns in which orders that hold a place were placed when they were printed. What was planned stays so: the
/// same orders share baths, and blocks are placed in the same sequence, those that are over left out.
class TurnsBefore {
 public:
  explicit TurnsBefore(std::span<const OrderToMake> orders);

  /// Who shared a bath; by the rule where nothing was kept.
  Sharing sharing() const;
  /// The same blocks in their turns; those of which none was kept stay behind the others.
  Sequence as_before(const Sequence& sequence, std::span<const Chain> chains) const;
  /// Notes the turns of the orders' blocks, from one on; those that it had where the sequence is as it was. The turn
  /// behind them all.
  std::size_t note(const Sequence& sequence, std::size_t from, std::span<const Chain> chains, ShopPlan& plan) const;
  /// Behind all turns that were kept.
  std::size_t end() const { return end_; }

 private:
  std::vector<std::optional<std::size_t>> of(const Sequence& sequence, std::span<const Chain> chains) const;

  std::span<const OrderToMake> orders_;
  std::vector<KeptTurns> kept_;
  std::size_t end_ = 0;
};

}  // namespace blankwright
