#pragma once

#include <vector>

#include "sheet/dossier.h"
#include "sheet/font_metrics.h"
#include "sheet/page.h"

namespace blankwright {

/// The table in which every blank's tare, masses and dry sizes are written down, a row a blank, in the shop's units.
/// In a draft, whose blanks have no IDs, their field is empty.
std::vector<Page> weighing_sheets(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
