#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// How the blanks are sawn: a drawing to scale of every board that something is sawn out of, the blanks that found no
/// room for their ID there, and the list of all cuts in the order in which they are made. No page for an order
/// without boards.
std::vector<Page> cutting_sheets(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
