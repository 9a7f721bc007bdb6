#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// Labels to cut out for the bottles of activated resin that the order's baths leave over, two for each bath: what it
/// is, since when, until when and how cool it keeps, and what it was in. None for a bath that leaves nothing.
std::vector<Page> bottle_labels(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
