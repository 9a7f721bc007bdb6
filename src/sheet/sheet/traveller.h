#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// The traveller: the template's sheets in its order, numbered. The turner's sheet stands alone on one page.
std::vector<Page> traveller(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
