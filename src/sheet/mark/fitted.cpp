#include "sheet/mark/fitted.h"

#include <algorithm>

#include "measure/utf8.h"

namespace blankwright {
namespace {

constexpr Length size_step = 0.1 * mm;
constexpr Length slack = 1e-6 * mm;

bool holds(const Box& box, const Paragraph& lines) { return lines.height() <= box.height + slack; }

/// Would a word have to be cut?
bool cuts_a_word(const Canvas& canvas, std::string_view words, Length width, const TextStyle& style) {
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    if (canvas.width_of(words.substr(0, end), style) > width) return true;
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return false;
}

std::string shortened(const std::string& line, Length width, const Canvas& canvas, const TextStyle& style) {
  std::u32string left = code_points(line);
  std::string out;
  do {
    if (!left.empty()) left.pop_back();
    out.clear();
    for (const char32_t c : left) out += to_utf8(c);
    out += "…";
  } while (!left.empty() && canvas.width_of(out, style) > width);
  return out;
}

}  // namespace

void fitted(Canvas& canvas, const Box& box, std::string_view words, const TextStyle& style, Placing placing) {
  TextStyle set = style;
  Paragraph lines = canvas.broken(words, box.width, set);
  while ((!holds(box, lines) || cuts_a_word(canvas, words, box.width, set)) && set.capitals > style.least + slack) {
    set.capitals = std::max(style.least, set.capitals - size_step);
    lines = canvas.broken(words, box.width, set);
  }
  if (!holds(box, lines)) {
    const double room = std::max(1.0, (box.height + slack) / lines.line_step);
    lines.lines.resize(std::min(lines.lines.size(), static_cast<std::size_t>(room)));
    lines.lines.back() = shortened(lines.lines.back(), box.width, canvas, set);
  }
  const Length x = style.align == Align::left     ? box.x
                   : style.align == Align::centre ? box.x + box.width / 2
                                                  : box.right();
  const Length top = placing == Placing::top ? box.y : box.y + (box.height - lines.height()) / 2;
  canvas.paragraph({x, top}, box.width, lines, set);
}

}  // namespace blankwright
