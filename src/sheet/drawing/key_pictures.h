#pragma once

#include "sheet/mark/canvas.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

inline constexpr Length least_key_pictures = 13 * mm, most_key_pictures = 24 * mm;  ///< of their height

/// Two small pictures beside each other, not to scale: the blank's end with datum A, from which the stud's axis is
/// measured, and the finished handle with the client's part on it. The box is at least 30 mm wide.
void draw_key_pictures(Canvas& canvas, const Dossier& dossier, const Box& box);

}  // namespace blankwright
