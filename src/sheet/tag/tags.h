#pragma once

#include <span>
#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"
#include "sheet/paper/dossier.h"
#include "sheet/tag/label_sheet.h"

namespace blankwright {

/// The dry tags, one a blank, as the template's blocks say: on its label sheet, leaving out places that are used up,
/// or as tags that are tied on. The dry tag stays outside the bath. A draft prints its tags without ID and code.
/// Words that find no room are an error. `used` has to leave a place on the sheet. `without`: blanks that have their
/// tags already, and get none; the others are counted as if they were there.
std::vector<Page> tag_pages(const Dossier& dossier, const FontMetrics& fonts, const UsedPlaces& used,
                            Diagnostics& out, std::span<const BlankId> without = {});

/// Do an order's words and codes find room on its tags? Says what does not, before any blank gets an ID.
void check_tags(const Dossier& dossier, const FontMetrics& fonts, Diagnostics& out);

}  // namespace blankwright
