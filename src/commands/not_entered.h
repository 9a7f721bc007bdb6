#pragma once

#include <vector>

#include "commands/compile_steps.h"
#include "register/register.h"
#include "sheet/paper/today_list.h"

namespace blankwright {

/// What was to be over by the plan's moment, by the print that was in force when it was to be over, and was not
/// entered: for each order and operation the blanks that stand there and were planned to be through. A later print
/// plans them anew, and takes no question back.
std::vector<NotEntered> not_entered(Register& known, const Shop& shop, const PlannedTogether& planned);

}  // namespace blankwright
