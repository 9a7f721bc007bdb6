#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// The inspection table: a row a blank, a field for every check of the turner's sheet with its limit at the head, and
/// for the length of the finished handle.
std::vector<Page> inspection_sheets(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
