#pragma once

#include <random>
#include <span>
#include <vector>

#include "plan/order/order_to_make.h"
#include "plan/shop/place_chains.h"

namespace blankwright {

/// Those of the chains whose orders hold a place, or of those that do not, one chain after the other, and behind an
/// order's last bath what it does by itself: light dyes before dark ones, since a vessel has to be cleaned between,
/// in each what is due first.
Sequence sequence_by_dye(std::span<const Chain> chains, std::span<const OrderToMake> orders, bool holds_place);

/// The same by what is due first, whatever its dye.
Sequence sequence_by_date(std::span<const Chain> chains, std::span<const OrderToMake> orders, bool holds_place);

/// The same numbers on every machine: the standard's distributions differ.
class Draw {
 public:
  /// Evenly of 0 to n - 1; n > 0.
  std::size_t below(std::size_t n) { return engine_() % n; }

 private:
  std::mt19937_64 engine_{20270503};
};

/// Another sequence near this one: a block, or all that is left of its chain from there on, has another place.
struct Moved {
  Sequence sequence;
  std::size_t first = 0;  ///< up to there it is the same
};
Moved moved(const Sequence& sequence, Draw& draw);

}  // namespace blankwright
