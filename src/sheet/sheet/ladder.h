#pragma once

#include "sheet/frame/flow.h"

namespace blankwright {

/// By dry mass, which is weighed, the least wet and cured mass and the wet mass that the voids allow at most, the
/// nominal blank among the rungs. For an order that resin is drawn into. In parts beside each other, so that it
/// leaves room for the blanks.
void put_ladder(OrderFlow& flow);

}  // namespace blankwright
