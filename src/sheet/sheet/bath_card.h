#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// A card for every bath that blanks of the order are in: the vessel with its blanks and levels, what is poured,
/// weighed and set, what is written down while the vacuum runs and the blanks soak, and whose blanks they are. A long
/// list of blanks goes on on further pages.
std::vector<Page> bath_cards(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
