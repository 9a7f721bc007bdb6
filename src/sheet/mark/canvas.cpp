#include "sheet/mark/canvas.h"

#include <algorithm>
#include <functional>

#include "diagnose/failure.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

constexpr double line_gap = 1.75;  // from baseline to baseline, in heights of the capitals

constexpr Length slack = 1e-6 * mm;

Length aligned(const Box& box, Align align) {
  return align == Align::left ? box.x : align == Align::centre ? box.x + box.width / 2 : box.right();
}

std::string joined(std::u32string_view characters) {
  std::string out;
  for (const char32_t c : characters) out += to_utf8(c);
  return out;
}

struct Cut {
  std::size_t kept;  ///< characters that stay in the line
  bool hyphen;
};

/// Where a word wider than the box is cut; nothing is kept where not one character fits. A word of small letters, but
/// for its first, takes a hyphen, with two letters at least on both sides; an ID takes none, since the hyphen would
/// be read as a part of it.
Cut cut_of(std::u32string_view word, const std::function<bool(const std::string&)>& fits_on) {
  std::size_t kept = 0;
  while (kept + 1 < word.size() && fits_on(joined(word.substr(0, kept + 1)))) ++kept;
  if (word.size() < 4 || !std::ranges::all_of(word.substr(1), &is_small_letter)) return {kept, false};
  std::size_t before = std::min(kept, word.size() - 2);
  while (before >= 2 && !fits_on(joined(word.substr(0, before)) + "-")) --before;
  return before >= 2 ? Cut{before, true} : Cut{kept, false};
}

/// Words and, each by itself, ends of lines.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> out;
  std::string word;
  const auto end_word = [&] {
    if (!word.empty()) out.push_back(std::exchange(word, {}));
  };
  for (const char c : text) {
    if (c != ' ' && c != '\n') {
      word += c;
      continue;
    }
    end_word();
    if (c == '\n') out.emplace_back("\n");
  }
  end_word();
  return out;
}

/// "8" and "h;", "87" and "°C", "≤" and "5": no line ends between them. Short words that are no units stay with a
/// number, too.
bool belong_together(std::string_view word, std::string_view next) {
  constexpr std::size_t longest = 5;  // bytes of "inHg," and "°C,"
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  if (word == "≤" || word == "≥" || word == "↑" || word == "↓") return is_digit(next.front());
  const bool may_be_unit = is_letter(next.front()) || next.front() == '%' || next.starts_with("°");
  const bool is_short = next.size() <= longest || next.find('/') != std::string_view::npos;
  return (is_digit(word.back()) || word == "N" || word == "lbf") && may_be_unit && is_short;  // "N m", "lbf in"
}

}  // namespace

Length Canvas::em(const TextStyle& style) const {
  const Length unit = 1 * mm;
  return capitals(style.size) / fonts_.cap_height(style.face, unit) * unit;
}

Length Canvas::width_of(std::string_view words, const TextStyle& style) const {
  return fonts_.width(words, style.face, em(style));
}

Length Canvas::widest_word(std::string_view text, const TextStyle& style) const {
  Length widest;
  for (const std::string& word : words_of(text)) widest = std::max(widest, width_of(word, style));
  return widest;
}

void Canvas::add(Mark mark, Role role) { page_.items.push_back({std::move(mark), role}); }

void Canvas::text(Spot at, std::string_view words, const TextStyle& style) {
  if (words.empty()) return;
  if (style.align == Align::centre) at.x -= width_of(words, style) / 2;
  if (style.align == Align::right) at.x -= width_of(words, style);
  add(Text{at, std::string{words}, style.face, em(style), Angle{}}, style.role);
}

void Canvas::text_upright(Spot at, std::string_view words, const TextStyle& style) {
  const Length width = width_of(words, style);
  if (style.align == Align::centre) at.y += width / 2;
  if (style.align == Align::right) at.y += width;
  add(Text{at, std::string{words}, style.face, em(style), 90 * degree}, style.role);
}

bool Canvas::text_in(const Box& box, std::string_view words, const TextStyle& style) {
  if (words.empty()) return true;
  TextStyle set = style;
  while (true) {
    for (const TextStyle& one : {set, narrowed(set)}) {
      if (width_of(words, one) > box.width + slack || capitals(one.size) > box.height + slack) continue;
      text({aligned(box, one.align), box.y + box.height / 2 + capitals(one.size) / 2}, words, one);
      return true;
    }
    if (set.size <= style.least) break;
    set.size = smaller(set.size);
  }
  for (const TextStyle& one : {set, narrowed(set)}) {
    const Paragraph lines = broken(words, box.width, one);
    if (lines.lines.size() > lines_in(box.height, lines)) continue;
    paragraph({box.x, box.y + (box.height - lines.height()) / 2}, box.width, lines, one);
    return true;
  }
  return false;
}

void Canvas::text_fitted(const Box& box, std::string_view words, TextStyle style) {
  BW_EXPECT(box.width > 0 * mm && box.height > 0 * mm);
  if (text_in(box, words, style)) return;
  if (is_enlarged()) return not_enlarged().text_fitted(box, words, style);
  style.size = style.least;
  style = narrowed(style);
  Paragraph lines = broken(words, box.width, style);
  lines.lines = first_lines(*this, lines, lines_in(box.height, lines), box.width, style);
  paragraph({box.x, box.y + (box.height - lines.height()) / 2}, box.width, lines, style);
}

void Canvas::paragraph(Spot top_left, Length width, const Paragraph& lines, const TextStyle& style) {
  const double along = style.align == Align::left ? 0 : style.align == Align::centre ? 0.5 : 1;
  Length baseline = top_left.y + (lines.line_step + capitals(style.size)) / 2;
  for (const std::string& line : lines.lines) {
    text({top_left.x + along * width, baseline}, line, style);
    baseline += lines.line_step;
  }
}

void Canvas::line(Spot from, Spot to, Length width, Dash dash) { polyline({from, to}, width, dash); }

void Canvas::polyline(Path path, Length width, Dash dash) {
  add(Stroke{{std::move(path)}, width, dash, false}, Role::rule);
}

void Canvas::outline(Path path, Length width, Dash dash) {
  add(Stroke{{std::move(path)}, width, dash, true}, Role::rule);
}

void Canvas::strokes(std::vector<Path> paths, Length width, Dash dash) {
  if (!paths.empty()) add(Stroke{std::move(paths), width, dash, false}, Role::rule);
}

void Canvas::rectangle(const Box& box, Length width) { outline(corners(box), width); }

void Canvas::filled(Path path, Ink ink) { add(Fill{{std::move(path)}, ink}, Role::rule); }

void Canvas::shade(const Box& box) { filled(corners(box), Ink::grey); }

void Canvas::ellipse(const Box& box, Length width, Dash dash) { add(Ellipse{box, width, dash}, Role::rule); }

void Canvas::circle(Spot centre, Length radius, Length width, Dash dash) {
  ellipse({centre.x - radius, centre.y - radius, 2 * radius, 2 * radius}, width, dash);
}

Paragraph Canvas::broken(std::string_view words, Length width, const TextStyle& style) const {
  Paragraph out{{}, em(style), capitals(style.size) * line_gap};
  std::string line;
  const auto fits_on = [&](const std::string& candidate) { return width_of(candidate, style) <= width; };
  const auto put = [&](std::string word) {
    const std::string longer = line.empty() ? word : line + " " + word;
    if (fits_on(longer)) {
      line = longer;
      return;
    }
    if (!line.empty()) out.lines.push_back(line);
    line.clear();
    while (!fits_on(word)) {  // a word wider than the box is cut where the box ends
      const std::u32string all = code_points(word);
      const Cut cut = cut_of(all, fits_on);
      if (cut.kept == 0) break;
      out.lines.push_back(joined(all.substr(0, cut.kept)) + (cut.hyphen ? "-" : ""));
      word = joined(all.substr(cut.kept));
    }
    line = word;
  };
  const std::vector<std::string> all = words_of(words);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all.at(i) == "\n") {
      out.lines.push_back(std::exchange(line, {}));
      continue;
    }
    std::string together = all.at(i);
    while (i + 1 < all.size() && belong_together(all.at(i), all.at(i + 1)) &&
           fits_on(together + " " + all.at(i + 1))) {
      together += " " + all.at(++i);
    }
    put(together);
  }
  if (!line.empty()) out.lines.push_back(line);
  return out;
}

std::size_t lines_in(Length height, const Paragraph& lines) {
  const Length gap = 0.25 * lines.line_step;  // of the first line and the last one, against what stands beside them
  return static_cast<std::size_t>(std::max(1.0, (height + gap + slack) / lines.line_step));
}

std::vector<std::string> first_lines(const Canvas& canvas, const Paragraph& lines, std::size_t count, Length width,
                                     const TextStyle& style) {
  if (lines.lines.size() <= count) return lines.lines;
  std::vector<std::string> out{lines.lines.begin(), lines.lines.begin() + static_cast<std::ptrdiff_t>(count)};
  std::u32string left = code_points(out.back());
  do {
    if (!left.empty()) left.pop_back();
    out.back() = joined(left) + "…";
  } while (!left.empty() && canvas.width_of(out.back(), style) > width);
  return out;
}

TextStyle narrowed(TextStyle style) {
  if (style.face == Face::regular) style.face = Face::narrow;
  return style;
}

TextStyle in_bold(TextStyle style) {
  style.face = Face::bold;
  return style;
}

Path corners(const Box& box) {
  return {{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}};
}

Box inside(const Box& box, Length border) {
  return {box.x + border, box.y + border, box.width - 2 * border, box.height - 2 * border};
}

}  // namespace blankwright
