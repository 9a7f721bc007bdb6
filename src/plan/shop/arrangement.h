#pragma once

#include <memory>
#include <span>

#include "plan/shop/baths.h"
#include "plan/shop/planner.h"
#include "plan/shop/sequence_search.h"
#include "plan/shop/turns.h"

namespace blankwright {

/// Orders, and what they are planned with and judged by. All of it outlives the arrangements.
struct ToPlan {
  std::span<const OrderToMake> orders;
  const Shop& shop;
  const ShopTime& time;
  Dues dues;
};
ToPlan to_plan(std::span<const OrderToMake> orders, const Shop& shop, const ShopTime& time);

/// One way to plan orders: who shares baths, and in which sequence blocks are placed.
class Arrangement {
 public:
  Arrangement(const ToPlan& to_plan, Sharing sharing, Diagnostics& out);

  const Sharing& sharing() const { return *sharing_; }
  bool is_in_several_baths(std::size_t order) const;
  const Punctuality& punctual() const { return others_.punctual; }
  /// How those that hold a place stand without the others, once it has begun.
  const Punctuality& of_holding() const { return holding_.punctual; }
  /// Blocks of one sequence.
  std::size_t blocks() const { return holding_.sequence.size() + others_.sequence.size(); }
  std::size_t placed() const { return placer_.placed(); }

  /// Light dyes before dark ones, or by date, whichever is better. What holds a place is first, in another sequence
  /// only if it is less late by that.
  void begin(std::size_t most_placed);
  /// What holds a place as another arrangement has it; the others, too, where that is better.
  void begin_like(const Arrangement& other);
  /// For those that hold no place.
  void look_for_better(std::size_t most_placed);

  /// The orders, which differ in nothing but how long they take and when they can begin, placed in the same sequence
  /// up to a moment. None is placed where what is under way finds no room and so leaves other blocks.
  Placement placed_with(std::span<const OrderToMake> orders, Instant until) const;

  /// Places all, and writes it down.
  ShopPlan finished() &&;

 private:
  void begin_within(Instant until);
  void see_until_when();
  void place_others();
  Sequence like(const Sequence& sequence, const Arrangement& other, const Sequence& theirs) const;

  const ToPlan* given_;
  std::unique_ptr<Sharing> sharing_;
  std::unique_ptr<ShopPlan> plan_;
  std::unique_ptr<Planner> planner_;
  ChainPlacer placer_;
  TurnsBefore before_;
  Placement begin_;                ///< within the time that it takes, since that is much quicker
  SequenceSearch::Found holding_;  ///< chains of orders that hold a place
  Placement behind_holding_;
  SequenceSearch::Found others_;
};

}  // namespace blankwright
