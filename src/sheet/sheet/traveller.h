#pragma once

#include <optional>
#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// The traveller: the template's sheets person by person, numbered. Where paper is printed on both sides, the pages
/// of each person begin on a leaf of their own, and cards have nothing behind them: such a side is a page without
/// anything. The worksheet is a document of its own.
std::vector<Page> traveller(const Dossier& dossier, const FontMetrics& fonts);

/// How every figure came about.
std::vector<Page> worksheet_document(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
