#pragma once

#include <vector>

#include "register/register.h"

namespace blankwright {

/// Takes out those that were scrapped since their order, as it was printed by then, had become another one, so that
/// they did not fit it any more: they are no loss of the process.
void leave_out_scrapped_by_change(Register& known, std::vector<KnownBlank>& blanks);

}  // namespace blankwright
