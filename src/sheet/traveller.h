#pragma once

#include <vector>

#include "sheet/dossier.h"
#include "sheet/font_metrics.h"
#include "sheet/page.h"

namespace blankwright {

/// The traveller: the turner's sheet, which stands alone, then routing, weighing and inspection
/// tables and worksheet, numbered.
std::vector<Page> traveller(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
