#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// A card for every load of the oven that blanks of the order are in: the shelf from above, dial and temperatures,
/// how long, what is written down meanwhile, and whose blanks they are. The first card begins with how the blanks are
/// dried before the bath. Times are those of this order's blank.
std::vector<Page> oven_cards(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
