#pragma once

#include <vector>

#include "read/template.h"
#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"

namespace blankwright {

/// The codes that are scanned at the bench, in the order of the work, each with its symbol (the plain code, level H,
/// on the printer's dots) and what it says. Symbols stand so far apart that a scanner sees one at a time.
std::vector<Page> code_sheets(const Template& words, const FontMetrics& fonts);

}  // namespace blankwright
