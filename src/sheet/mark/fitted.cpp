#include "sheet/mark/fitted.h"

#include <algorithm>

namespace blankwright {
namespace {

/// Would a word have to be cut?
bool cuts_a_word(const Canvas& canvas, std::string_view words, Length width, const TextStyle& style) {
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    if (canvas.width_of(words.substr(0, end), style) > width) return true;
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return false;
}

/// The largest size at which the box holds all lines; the least one, in the narrow face, where none does.
TextStyle style_for(const Canvas& canvas, const Box& box, std::string_view words, TextStyle style) {
  while (true) {
    for (const TextStyle& one : {style, narrowed(style)}) {
      const Paragraph lines = canvas.broken(words, box.width, one);
      if (lines.lines.size() <= lines_in(box.height, lines) && !cuts_a_word(canvas, words, box.width, one))
        return one;
    }
    if (style.size <= style.least) return narrowed(style);
    style.size = smaller(style.size);
  }
}

}  // namespace

void fitted(Canvas& canvas, const Box& box, std::string_view words, const TextStyle& style, Vertical placing) {
  const TextStyle set = style_for(canvas, box, words, style);
  Paragraph lines = canvas.broken(words, box.width, set);
  const bool is_cut = lines.lines.size() > lines_in(box.height, lines) || cuts_a_word(canvas, words, box.width, set);
  if (is_cut && canvas.is_enlarged()) {
    Canvas usual = canvas.not_enlarged();
    return fitted(usual, box, words, style, placing);
  }
  lines.lines = first_lines(canvas, lines, lines_in(box.height, lines), box.width, set);
  const Length top = placing == Vertical::top ? box.y : box.y + (box.height - lines.height()) / 2;
  canvas.paragraph({box.x, top}, box.width, lines, set);
}

}  // namespace blankwright
