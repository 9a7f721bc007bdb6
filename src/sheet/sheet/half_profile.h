#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// A template of half of the finished form to hold against the work, seat above, axis down the paper. A handle that
/// is longer than the page goes on on the next one, with a joint that both have. On paper too narrow for the whole
/// radius the axis lies off the sheet, and what is thinner than the sheet can show is left out.
std::vector<Page> half_profile_pages(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
