#pragma once

#include <cstddef>
#include <optional>
#include <span>

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

/// When an operation was done to a blank, as far as entries tell.
std::optional<Instant> done_at(std::size_t operation, const BlankState& blank, const BathState& bath,
                               std::span<const OperationFacts* const> routing);

}  // namespace blankwright
