#pragma once

#include <string>
#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// The sheet that lies beside the lathe, always one page that stands alone: title block (ISO 7200), the handle in
/// section to scale, what tools and blank are set to, checks and holds before turning, caliper settings, notes and
/// cautions. The drawing takes what the rest leaves. What is given up first where room is scarce: writing gets smaller
/// down to its floor, cautions go on on the inspection sheet, the drawing's scale, dimensions at its stations. Stations
/// beyond what a page holds are thinned out evenly, and the sheet says so.
Page turner_sheet(const Dossier& dossier, const FontMetrics& fonts);

/// Is the handle drawn in its true size there, corrected for the shop's printer, with a bar to measure?
bool draws_true_to_size(const Dossier& dossier, const FontMetrics& fonts);

/// The cautions that find no room on it, for the inspection sheet.
std::vector<std::string> cautions_for_inspection(const Dossier& dossier, const FontMetrics& fonts);

}  // namespace blankwright
