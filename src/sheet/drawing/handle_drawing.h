#pragma once

#include "sheet/drawing/drawing_layout.h"

namespace blankwright {

/// Draws the handle as drawing_layout() has planned it into a box at least as large as that was planned for: to
/// scale, axis horizontal, seat on the left; running dimensions from the seat (ISO 129-1), diameters at leaders, the
/// stud's position against datum A, the seat's squareness to datum B (ISO 1101), and beside them the numbers of the
/// characteristics.
void draw_handle(Canvas& canvas, const Dossier& dossier, std::span<const SheetStation> stations, const Box& box,
                 const DrawingLayout& layout);

}  // namespace blankwright
