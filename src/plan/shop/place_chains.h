#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include "plan/shop/chain.h"
#include "plan/shop/shop_calendar.h"

namespace blankwright {

/// In which order blocks are placed: each time that a chain is named, its next one.
using Sequence = std::vector<std::size_t>;

/// How far chains are placed, and what the calendar then has promised.
struct Placement {
  struct OfChain {
    std::size_t next = 0;  ///< block
    Instant ready{};       ///< when it can go on
    Instant soaked{};      ///< of a bath: when it is out of its vessel
    std::vector<OutOfBath> out{};
  };
  ShopCalendar calendar;
  std::vector<OfChain> chains;
  std::vector<Instant> finish;            ///< of each order
  std::vector<bool> not_placed;           ///< the calendar had no room for a part of the order
  std::map<std::string, int> darkness{};  ///< of what was in each vessel last
  int dark_first = 0;  ///< baths behind one of a darker dye in their vessel, which has to be cleaned for them
  bool full = false;   ///< beyond the horizon what comes later would only be later still, and is not tried
};

/// The times of a chain's operations.
struct PlacedChain {
  OrderSchedule planned;
  std::vector<std::optional<OrderSchedule>> tied;
  std::vector<Instant> tied_ready;
  std::vector<PlacedRest> rests;  ///< of what comes out of several baths
};

/// Places the next block of a chain, behind all that it waits for: each operation as early as the rules allow.
class ChainPlacer {
 public:
  /// `chains` outlive it.
  explicit ChainPlacer(std::span<const Chain> chains) : chains_{chains} {}

  Placement begin(ShopCalendar calendar, std::vector<Instant> finish, std::vector<bool> not_placed) const;
  /// Places nothing where all of the chain is placed. `kept`: of each chain, where times are wanted.
  void place_next(std::size_t chain, Placement& now, std::vector<PlacedChain>* kept = nullptr);

  std::size_t placed() const { return placed_; }  ///< blocks so far
  std::span<const Chain> chains() const { return chains_; }

 private:
  void place_block(std::size_t chain, Placement& now, std::vector<PlacedChain>* kept);
  void place_rest(std::size_t chain, Placement& now, std::vector<PlacedChain>* kept);
  void wait_for_vessel(const Chain& chain, std::vector<Operation>& ops, std::size_t first, Placement& now) const;
  void go_on(std::size_t chain, std::size_t first, std::size_t end, const PlacedTogether& placed,
             Placement& now) const;
  void leave_out(const Chain& chain, Placement& now) const;

  std::span<const Chain> chains_;
  std::size_t placed_ = 0;
};

}  // namespace blankwright
