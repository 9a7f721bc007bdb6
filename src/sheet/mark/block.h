#pragma once

#include <span>
#include <string>
#include <vector>

#include "sheet/mark/canvas.h"

namespace blankwright {

/// Words and how they are to be set. `style.least` equal to `style.capitals` wraps them at full size; less than that
/// shrinks them onto one line first, and wraps them at the least size where even that is too long.
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

/// The style at the size that the canvas' lettering makes of it. What may shrink keeps its least size, so that it
/// finds room where it did before; what is as large as an ID anyhow stays as it is.
TextStyle lettered(const Canvas& canvas, TextStyle style);

/// Measures phrases for a width > 0, at the canvas' lettering; empty ones are left out.
Block set_block(const Canvas& canvas, std::span<const Phrase> phrases, Length width);

/// Draws a block below and to the right of a spot.
void place_block(Canvas& canvas, Spot top_left, const Block& block);

}  // namespace blankwright
