#include "sheet/mark/block.h"

#include <algorithm>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

SetPhrase set_phrase(const Canvas& canvas, const Phrase& phrase, Length width) {
  TextStyle style = phrase.style;
  while (style.size > style.least && canvas.width_of(phrase.words, style) > width) style.size = smaller(style.size);
  return {canvas.broken(phrase.words, width, style), style};
}

}  // namespace

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
