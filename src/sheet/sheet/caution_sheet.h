#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// The cautions that fit what the plan contains, step by step, and the shop's own; at the top what comes before them.
std::vector<Page> caution_sheets(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
