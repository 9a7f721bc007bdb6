#pragma once

#include <vector>

#include "sheet/dossier.h"
#include "sheet/font_metrics.h"
#include "sheet/page.h"

namespace blankwright {

/// The traveller: the template's sheets in its order, numbered. The turner's sheet stands alone on one page.
std::vector<Page> traveller(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
