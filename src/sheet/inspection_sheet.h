#pragma once

#include <vector>

#include "sheet/dossier.h"
#include "sheet/font_metrics.h"
#include "sheet/page.h"

namespace blankwright {

/// The inspection table: a row a blank, a field for every check of the turner's sheet with its limit at the head, and
/// for the length of the finished handle.
std::vector<Page> inspection_sheets(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
