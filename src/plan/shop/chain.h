#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "plan/shop/out_of_baths.h"
#include "plan/shop/place_together.h"

namespace blankwright {

/// What blanks of an order do behind a bath.
struct GoesOn {
  std::size_t order = 0;
  OutOfBath out;                     ///< `after`: of all operations of the bath
  std::optional<std::size_t> tied;   ///< what may wait for it only so long: which of the chain's
  std::optional<std::size_t> chain;  ///< where they go on then
};

/// Operations that are placed one after the other: those of a bath up to the cure, or what an order does by itself.
/// They fall into blocks, which are placed as one, since what is in a block may wait only so long, or stays in the
/// vessel.
struct Chain {
  std::optional<std::size_t> bath;
  std::size_t order = 0;              ///< whose it is; of a bath the most urgent one in it
  std::vector<std::size_t> orders{};  ///< that have blanks in it
  std::vector<Operation> ops{};       ///< what shares, of its block's
  std::vector<std::size_t> ends{};    ///< of the blocks: the first operation that is none of it
  std::vector<std::size_t> behind{};  ///< chains that are placed before it begins
  Instant from{};                     ///< it does not begin before
  const OrderInShare* out =
      nullptr;                     ///< of what comes out of several baths: how it goes on is seen when they are there
  std::vector<OutOfBath> there{};  ///< of these those that are under way

  // Of a bath.
  std::vector<GoesOn> going{};
  std::vector<Behind> tied{};  ///< with its last block
  std::string vessel{};
  std::optional<std::size_t> in_vessel{};  ///< its first operation there
  std::size_t out_of_vessel = 0;           ///< its last one
  int darkness = 0;                        ///< of its dye
  std::vector<std::size_t> resin_from{};   ///< the chains of baths whose left-over resin it takes
  std::vector<const OperationFacts*> routing{};
  PlannedDurations durations{};
  std::vector<std::optional<std::size_t>> loads{};  ///< that each operation cures

  std::size_t blocks() const { return out != nullptr ? 1 : ends.size(); }
  /// The block of an operation.
  std::size_t block_of(std::size_t op) const;
};

/// Cuts a chain's operations into blocks, whose shares are of their own operations from then on.
void cut_into_blocks(Chain& chain);

}  // namespace blankwright
