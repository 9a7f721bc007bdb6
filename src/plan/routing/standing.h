#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "entries/blank_state.h"
#include "entries/process_state.h"
#include "read/shop.h"

namespace blankwright {

/// How far a blank has come in a routing.
struct Standing {
  std::size_t next = 0;          ///< the first operation that is still open; their number where none is
  std::optional<Instant> since;  ///< when the last one was done; none where nothing was
  std::optional<Instant> begun;  ///< when the open one began, where an entry tells that
};

/// Where a blank stands by its entries. In bath or oven it stands at that; otherwise behind the last operation that
/// is done. One is done when its `done` holds, or the entry that the shop says ends it, told of after the blank left
/// the oven or the bath before it: blanks that were soaked or dried again begin anew there. `bath`: the one it was in
/// last, an empty one where it was in none. A blank that is over counts as far as it came.
Standing standing_of(const BlankState& blank, const BathState& bath, std::span<const OperationFacts* const> routing);

/// The operations with a HOLD that a blank went past without an entry that they were done. Of drying, bath and cure
/// its masses and its load tell; what is done to witnesses alone is answered by them.
std::vector<std::size_t> holds_passed(const BlankState& blank, const BathState& bath,
                                      std::span<const OperationFacts* const> routing);

/// When an operation was done to a blank, as far as entries tell.
std::optional<Instant> done_at(std::size_t operation, const BlankState& blank, const BathState& bath,
                               std::span<const OperationFacts* const> routing);

/// When drying, vacuum, soak or cure last began for a blank, as far as entries tell; none of other operations.
std::optional<Instant> begun_at(const OperationFacts& facts, const BlankState& blank, const BathState& bath);

}  // namespace blankwright
