#pragma once

#include <vector>

#include "plan/could_become.h"
#include "register/register.h"

namespace blankwright {

/// A blank that was begun for an order and does not fit it as it is now.
struct FitsNoMore {
  BlankState blank;
  Against against = Against::nothing;
};

/// Those of an order's begun pieces that do not fit it any more, by what was measured of them, or else by what paper
/// said when they were sawn or bored. Those that are turned, or meant for another order, are no longer looked at.
std::vector<FitsNoMore> fit_no_more(Register& known, const Record& record, const OpenOrder& now);

/// Says which they are and what each could become.
void say_fit_no_more(Register& known, const std::vector<FitsNoMore>& blanks, const OpenOrder& now, Diagnostics& out);

/// Says which IDs of the order were never sawn and are not needed, since others took their place.
void say_not_needed(const Record& record, const Order& order, const StartCount& start, Diagnostics& out);

}  // namespace blankwright
