#pragma once

#include <vector>

#include "sheet/dossier.h"
#include "sheet/font_metrics.h"
#include "sheet/page.h"

namespace blankwright {

/// The dry tags, one a blank, on the template's label sheet: grouped ID in large letters, QR symbol (version 2, level
/// H where it finds room, else the largest that does), order, n of N, wood, sawn size, and boxes to write masses in.
/// The dry tag stays outside the bath. A draft prints its tags without ID and code. Words that find no room on the
/// label are an error.
std::vector<Page> tag_pages(const Dossier& dossier, const FontMetrics& fonts, Diagnostics& out);

/// Do an order's words and codes find room on its labels? Says what does not, before any blank gets an ID.
void check_tags(const Dossier& dossier, const FontMetrics& fonts, Diagnostics& out);

}  // namespace blankwright
