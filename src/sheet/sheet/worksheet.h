#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// How every figure of the plan came about, in the order of the calculation: value, formula, the numbers put in,
/// where they came from, and whose formula it is. Two columns; one figure's working is never cut.
std::vector<Page> worksheets(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
