#include "sheet/mark/canvas.h"

#include <algorithm>
#include <functional>

#include "diagnose/failure.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

constexpr double line_gap = 1.75;  // from baseline to baseline, in heights of the capitals

TextStyle shrunk(TextStyle style, Length capitals) {
  style.capitals = capitals;
  return style;
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

}  // namespace

Length Canvas::em(const TextStyle& style) const {
  const Length unit = 1 * mm;
  return style.capitals / fonts_.cap_height(style.face, unit) * unit;
}

Length Canvas::width_of(std::string_view words, const TextStyle& style) const {
  return fonts_.width(words, style.face, em(style));
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
  const Length wanted = width_of(words, style);
  const Length fitting = wanted <= box.width ? style.capitals : style.capitals * (box.width / wanted);
  const Length x = style.align == Align::left     ? box.x
                   : style.align == Align::centre ? box.x + box.width / 2
                                                  : box.right();
  if (fitting >= style.least) {
    const TextStyle set = shrunk(style, std::min(fitting, box.height));
    text({x, box.y + box.height / 2 + set.capitals / 2}, words, set);
    return true;
  }
  const TextStyle floor = shrunk(style, style.least);
  const Paragraph lines = broken(words, box.width, floor);
  if (lines.height() > box.height + 0.01 * mm) return false;
  const Length top = box.y + (box.height - lines.height()) / 2;
  paragraph({box.x, top}, box.width, lines, floor);
  return true;
}

void Canvas::text_fitted(const Box& box, std::string_view words, TextStyle style) {
  BW_EXPECT(box.width > 0 * mm && box.height > 0 * mm);
  while (!text_in(box, words, style)) style.least = 0.9 * style.least;
}

void Canvas::paragraph(Spot top_left, Length width, const Paragraph& lines, const TextStyle& style) {
  const double along = style.align == Align::left ? 0 : style.align == Align::centre ? 0.5 : 1;
  Length baseline = top_left.y + style.capitals + (lines.line_step - style.capitals) / 2;
  for (const std::string& line : lines.lines) {
    text({top_left.x + along * width, baseline}, line, style);
    baseline += lines.line_step;
  }
}

void Canvas::line(Spot from, Spot to, Length width, Dash dash) { polyline({from, to}, width, dash); }

void Canvas::polyline(Path path, Length width, Dash dash, bool closed) {
  add(Stroke{{std::move(path)}, width, dash, closed}, Role::rule);
}

void Canvas::strokes(std::vector<Path> paths, Length width, Dash dash) {
  if (!paths.empty()) add(Stroke{std::move(paths), width, dash, false}, Role::rule);
}

void Canvas::rectangle(const Box& box, Length width) {
  polyline({{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}}, width,
           Dash::solid, true);
}

void Canvas::filled(Path path) { add(Fill{{std::move(path)}, false}, Role::rule); }

void Canvas::ellipse(const Box& box, Length width, Dash dash) { add(Ellipse{box, width, dash}, Role::rule); }

void Canvas::circle(Spot centre, Length radius, Length width, Dash dash) {
  ellipse({centre.x - radius, centre.y - radius, 2 * radius, 2 * radius}, width, dash);
}

Paragraph Canvas::broken(std::string_view words, Length width, const TextStyle& style) const {
  Paragraph out{{}, em(style), style.capitals * line_gap};
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
  std::string word;
  for (const char c : words) {
    if (c != ' ' && c != '\n') {
      word += c;
      continue;
    }
    if (!word.empty()) put(std::exchange(word, {}));
    if (c == '\n') out.lines.push_back(std::exchange(line, {}));
  }
  if (!word.empty()) put(word);
  if (!line.empty()) out.lines.push_back(line);
  return out;
}

Box inside(const Box& box, Length border) {
  return {box.x + border, box.y + border, box.width - 2 * border, box.height - 2 * border};
}

}  // namespace blankwright
