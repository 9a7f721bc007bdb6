#pragma once

#include <vector>

#include "read/words.h"
#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// What makes the pages of each kind of sheet; none for an order that has no use for it. What is on them stands with
/// each.
#define BW_MAKER(kind, title, maker, sign) std::vector<Page> maker(const Dossier& dossier, const FontMetrics& fonts);
BW_SHEETS(BW_MAKER)
#undef BW_MAKER

}  // namespace blankwright
