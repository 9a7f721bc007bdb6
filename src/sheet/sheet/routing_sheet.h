#pragma once

#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// The routing: what is started and how large, when it has to begin and end, and every operation with its limit,
/// planned times, counts and sign-off; below an operation its hold, with the field for the signature that releases
/// it.
std::vector<Page> routing_sheets(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
