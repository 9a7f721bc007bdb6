#pragma once

#include <optional>
#include <vector>

#include "plan/gate/could_become.h"
#include "register/register.h"

namespace blankwright {

/// A blank that is meant for an order and does not fit it as it is now.
struct FitsNoMore {
  BlankState blank;
  std::optional<Against> against;  ///< none: what was printed when it was begun cannot be planned any more
  /// Was it issued to another order?
  bool is_promised_in() const { return blank.promised != blank.order; }
};

/// Those of an order's begun pieces, and of those promised to it, that do not fit it, by what was measured of them,
/// or else by what paper said when they were sawn or bored; and those of which that is not known. Those that are
/// turned, or meant for another order, are no longer looked at.
std::vector<FitsNoMore> fit_no_more(Register& known, const Record& record, const OpenOrder& now);

/// Says which they are and what each could become.
void say_fit_no_more(Register& known, const std::vector<FitsNoMore>& blanks, const OpenOrder& now, Diagnostics& out);

/// Says which IDs of the order were never sawn and are not needed: fewer pieces are wanted than were, or others took
/// their place. `needed`: pieces in all.
void say_not_needed(const Record& record, const Order& order, int needed, Diagnostics& out);

}  // namespace blankwright
