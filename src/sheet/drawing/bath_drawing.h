#pragma once

#include "sheet/mark/canvas.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// How a vessel is drawn: 1 : reduction, the largest at which section and plan find room beside each other.
struct BathScale {
  int reduction = 1;
  Length drawn(Length length) const { return length / reduction; }
};
BathScale bath_scale(const VesselFacts& vessel, Length width, Length height);

/// Draws a bath into a box at least 34 mm high: the vessel in section with rim, blanks in their layers, ballast
/// over them, the level at the start and at the end, each with its height from the inside bottom and its dip from the
/// rim; beside it one layer from above, its places numbered. The section runs through the row of places next to the
/// vessel's middle. The ballast is as thick as it would be spread over the blanks, as far as the level at the end
/// lets it.
void draw_bath(Canvas& canvas, const Box& box, const Dossier& dossier, const PlannedBath& bath);

}  // namespace blankwright
