#pragma once

#include <span>
#include <string>
#include <vector>

#include "sheet/mark/canvas.h"

namespace blankwright {

/// Words and how they are to be set. `style.least` equal to `style.size` wraps them at full size; less than that
/// steps down to one line first, and wraps them at the least size where even that is too long.
struct Phrase {
  std::string words;
  TextStyle style;
};

/// A phrase that was cut into lines for a width.
struct SetPhrase {
  Paragraph lines;
  TextStyle style;  ///< with the size that came out
};

/// Phrases one below the other, measured and ready to be placed. Nothing of it is wider than the width it was set
/// for.
struct Block {
  std::vector<SetPhrase> phrases;
  Length width, height;
};

/// Measures phrases for a width > 0; empty ones are left out.
Block set_block(const Canvas& canvas, std::span<const Phrase> phrases, Length width);

/// Draws a block below and to the right of a spot.
void place_block(Canvas& canvas, Spot top_left, const Block& block);

}  // namespace blankwright
