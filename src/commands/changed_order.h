#pragma once

#include <vector>

#include "plan/gate/fits_no_more.h"
#include "register/register.h"

namespace blankwright {

/// Those of an order's begun pieces, and of those promised to it, that do not fit it as it is now; and those of which
/// that is not known.
std::vector<FitsNoMore> fit_no_more(Register& known, const Record& record, const OpenOrder& now);

/// Says which they are and what each could become by the register.
void say_fit_no_more(Register& known, const std::vector<FitsNoMore>& blanks, const OpenOrder& now, Diagnostics& out);

}  // namespace blankwright
