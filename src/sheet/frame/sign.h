#pragma once

#include "read/template.h"
#include "sheet/mark/canvas.h"

namespace blankwright {

/// The outline by which a kind of sheet is known before a word of it is read: a handle, a vessel, an oven ... Drawn
/// in wide lines as large as the box holds, in its middle.
void draw_sign(Canvas& canvas, SheetKind kind, const Box& box);

}  // namespace blankwright
