#pragma once

#include <cstddef>
#include <string>

#include "plan/wood/cutting.h"

namespace blankwright {

/// Where an order's blank number `n` (from 0: the pieces, then the witnesses) is cut; nothing where the boards did
/// not yield so many. The first witness is the one from the middle of a strip's length, if the plan has one.
const CutBlank* cut_of(const CuttingPlan& plan, std::size_t n, std::size_t pieces);

/// "2-3": strip and position on the board; of a thick board with the layer, "2-3-1".
std::string position_text(const CuttingPlan& plan, const CutBlank& cut);

}  // namespace blankwright
