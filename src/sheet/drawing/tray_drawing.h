#pragma once

#include "sheet/mark/canvas.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// What lies on the fullest shelf of a load.
struct Tray {
  const PlannedLoad* load = nullptr;
  int count = 0;  ///< blanks in the whole load
};

/// Blanks on each shelf, the first full before the next is begun.
std::vector<int> on_shelves(const Tray& tray);

/// Draws a shelf from above into a box at least 34 mm high, to scale: the oven's walls, the clearance that is kept
/// to them, the blanks with the gaps between them, those places that stay empty dashed.
void draw_tray(Canvas& canvas, const Box& box, const Dossier& dossier, const Tray& tray);

}  // namespace blankwright
