#pragma once

#include "sheet/mark/canvas.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// Draws the seat with the mouth of its bore and the stud in it, enlarged, into the top of a box: at the largest of
/// the standard scales (ISO 5455) that finds room. Draws nothing where even twice the size finds none.
void draw_seat_detail(Canvas& canvas, const Dossier& dossier, const Box& room);

}  // namespace blankwright
