#pragma once

#include <string>

#include "sheet/mark/canvas.h"

namespace blankwright {

/// Draws the code of a text into the middle of a box, quiet zone included, as large as it goes. Nothing where the box
/// is too small for it: what it says stands beside it in letters.
void draw_text_code(Canvas& canvas, const Box& box, const std::string& text);

}  // namespace blankwright
