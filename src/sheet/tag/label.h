#pragma once

#include <vector>

#include "sheet/frame/block_drawing.h"
#include "sheet/tag/label_sheet.h"

namespace blankwright {

/// White inside a label that words keep clear of: cutters and printers are off by that much.
inline constexpr Length label_margin = 3 * mm;

/// A label's blocks, placed from its top left corner. The template has to outlive them.
using LabelLayout = std::vector<PlacedBlock>;
/// The dry tag's, or those of an end's tag where the template's labels are square and no larger than 30 mm.
LabelLayout tag_layout(const Template& t);
/// The same of a piece that is sent: on such labels there is room for its ID alone.
LabelLayout parcel_layout(const Template& t);

/// How a label is drawn: what finds no room is refused.
BlockStyle label_style(const Template& t, UnitSystem units);

/// Says what found no room on a label, or on a tag that is tied on.
void say_no_room(const Template& t, const BlockWords& words, Diagnostics& out);

/// Warns where the labels of a template are printed nearer to the edge of the paper than many printers can.
void say_near_edge(const Template& t, const PrinterFacts& printer, Diagnostics& out);

}  // namespace blankwright
