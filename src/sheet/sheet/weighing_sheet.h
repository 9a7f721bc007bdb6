#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// The table in which every blank's tare, masses and dry sizes are written down, a row a blank, in the shop's units.
/// Where resin is drawn in, the ladder stands above it: by dry mass the least wet and cured mass, and the wet mass
/// that the voids allow at most, the nominal blank among the rungs; and witnesses, the last of the blanks, are
/// marked. In a draft, whose blanks have no IDs, their field is empty.
std::vector<Page> weighing_sheets(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
