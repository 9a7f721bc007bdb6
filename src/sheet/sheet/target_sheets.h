#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// Targets for the ends of every piece's blank, seat and tail next to each other where two find room on a page; in a
/// draft one pair. Witnesses get none: they are cut open.
std::vector<Page> target_sheets(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
