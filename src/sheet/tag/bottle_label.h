#pragma once

#include "sheet/mark/canvas.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// The least size of a label for a bottle.
inline constexpr Length bottle_label_width = 60 * mm, bottle_label_height = 37 * mm;

/// The baths of the order that leave resin over which no later one takes: each has a label.
std::vector<const BathOnPaper*> bottles_of(const Dossier& dossier);

/// Do the labels of bottles stand on the last sheet of the tags? They do where its labels are large enough and enough
/// of them are free, when it was begun whole.
bool bottles_go_with_tags(const Dossier& dossier);

/// A label for a bottle of activated resin that a bath leaves over: what it is, how much, since when, until when and
/// how cool it keeps, and what it was in; with fields for what it really is.
void draw_bottle_label(Canvas& canvas, const Dossier& dossier, const BathOnPaper& bath, const Box& label);

}  // namespace blankwright
