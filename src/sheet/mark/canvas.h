#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/page.h"

namespace blankwright {

enum class Align { left, centre, right };

/// How a text is set. Sizes are heights of the capitals, as drawings and rules of legibility state them.
struct TextStyle {
  Length capitals = 2.5 * mm;
  Face face = Face::regular;
  Align align = Align::left;
  Length least = 1.8 * mm;  ///< down to this it may shrink to fit a box
  Role role = Role::field;
};

/// Lines of text that stand one below the other.
struct Paragraph {
  std::vector<std::string> lines;
  Length em;         ///< of the type
  Length line_step;  ///< from baseline to baseline
  Length height() const { return static_cast<double>(lines.size()) * line_step; }
};

// Line widths, ISO 128: narrow to wide as 1 to 2, those for the bench.
inline constexpr Length narrow_line = 0.25 * mm;
inline constexpr Length wide_line = 0.5 * mm;
inline constexpr Length hold_line = 0.7 * mm;

/// Puts marks on a page. Text never runs out of its box: it shrinks to its floor, and what is still too long is cut
/// into lines by the caller or is a broken promise here.
class Canvas {
 public:
  /// `lettering`: how high the words of blocks and tables are to be, of what their styles say; > 0.
  Canvas(Page& page, const FontMetrics& fonts, double lettering = 1)
      : page_{page}, fonts_{fonts}, lettering_{lettering} {}

  Page& page() { return page_; }
  const FontMetrics& fonts() const { return fonts_; }
  double lettering() const { return lettering_; }

  /// A line of text on a baseline; `at` is the left end, middle or right end of it as the style aligns.
  void text(Spot at, std::string_view words, const TextStyle& style);
  /// The same turned by a quarter anticlockwise: reads from below upwards, `at` is its beginning.
  void text_upright(Spot at, std::string_view words, const TextStyle& style);
  /// One line in the middle of a box's height, shrunk to its width where needed. Words that do not fit at the floor
  /// are set in as many lines as the box holds; false when even those do not hold them (nothing is drawn then).
  bool text_in(const Box& box, std::string_view words, const TextStyle& style);
  /// The same, and below the floor rather than not at all: for words of any length that must not be lost.
  void text_fitted(const Box& box, std::string_view words, TextStyle style);
  /// Lines of a paragraph, the first below `top`.
  void paragraph(Spot top_left, Length width, const Paragraph& lines, const TextStyle& style);

  void line(Spot from, Spot to, Length width = narrow_line, Dash dash = Dash::solid);
  void polyline(Path path, Length width, Dash dash = Dash::solid, bool closed = false);
  void strokes(std::vector<Path> paths, Length width, Dash dash = Dash::solid);
  void rectangle(const Box& box, Length width = narrow_line);
  void filled(Path path);
  /// Its outline, or filled black where `width` is nothing.
  void ellipse(const Box& box, Length width = narrow_line, Dash dash = Dash::solid);
  void circle(Spot centre, Length radius, Length width = narrow_line, Dash dash = Dash::solid);
  void add(Mark mark, Role role);

  Length width_of(std::string_view words, const TextStyle& style) const;
  /// Breaks words at spaces (and, where a word is wider than the box, inside it) into lines no wider than `width`.
  Paragraph broken(std::string_view words, Length width, const TextStyle& style) const;
  /// The em of a type whose capitals are that high.
  Length em(const TextStyle& style) const;

 private:
  Page& page_;
  const FontMetrics& fonts_;
  double lettering_;
};

/// The box less a border on every side.
Box inside(const Box& box, Length border);

}  // namespace blankwright
