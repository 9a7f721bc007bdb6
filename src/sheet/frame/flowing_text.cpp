#include "sheet/frame/flowing_text.h"

namespace blankwright {

void put_text(Flow& flow, const Phrase& phrase) {
  const Length width = whole_room(flow).width;
  const TextStyle& style = phrase.style;
  const Paragraph all = canvas_of(flow).broken(phrase.words, width, style);
  for (const std::string& line : all.lines) {
    const Box strip = next_strip(flow, all.line_step);
    canvas_of(flow).paragraph({strip.x, strip.y}, width, {{line}, all.em, all.line_step}, style);
  }
}

}  // namespace blankwright
