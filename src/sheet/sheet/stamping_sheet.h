#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// The list from which bath tags and end marks are made by hand: every blank with its ID, where it was sawn, and what
/// is to be done for it. What carries an ID through bath and oven, and how it is marked: common practice, no source.
std::vector<Page> stamping_sheets(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
