#include "sheet/mark/block.h"

#include <algorithm>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

SetPhrase set_phrase(const Canvas& canvas, const Phrase& phrase, Length width) {
  TextStyle style = lettered(canvas, phrase.style);
  const Length wanted = canvas.width_of(phrase.words, style);
  if (wanted > width) style.capitals = std::max(style.least, style.capitals * (width / wanted));
  // A hair more than the width, so that a line that was shrunk to it is not broken for the last digit.
  return {canvas.broken(phrase.words, width * (1 + 1e-9), style), style};
}

}  // namespace

TextStyle lettered(const Canvas& canvas, TextStyle style) {
  constexpr Length large = 5 * mm;
  if (style.capitals >= large) return style;
  const bool wraps_at_full_size = style.least >= style.capitals;
  style.capitals = std::max(style.capitals * canvas.lettering(), wraps_at_full_size ? 0 * mm : style.least);
  if (wraps_at_full_size) style.least = style.capitals;
  return style;
}

Block set_block(const Canvas& canvas, std::span<const Phrase> phrases, Length width) {
  BW_EXPECT(width > 0 * mm);
  Block block{{}, width, {}};
  for (const Phrase& phrase : phrases) {
    if (phrase.words.empty()) continue;
    block.phrases.push_back(set_phrase(canvas, phrase, width));
    block.height += block.phrases.back().lines.height();
  }
  return block;
}

void place_block(Canvas& canvas, Spot top_left, const Block& block) {
  for (const SetPhrase& phrase : block.phrases) {
    canvas.paragraph(top_left, block.width, phrase.lines, phrase.style);
    top_left.y += phrase.lines.height();
  }
}

}  // namespace blankwright
