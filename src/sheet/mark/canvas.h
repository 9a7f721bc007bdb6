#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sheet/mark/font_metrics.h"
#include "sheet/mark/lettering.h"
#include "sheet/mark/page.h"

namespace blankwright {

enum class Align { left, centre, right };

/// How a text is set.
struct TextStyle {
  Lettering size = Lettering::hand;
  Face face = Face::regular;
  Align align = Align::left;
  Lettering least = Lettering::note;  ///< down to this it may step to fit a box
  Role role = Role::field;
};

/// Lines of text that stand one below the other.
struct Paragraph {
  std::vector<std::string> lines;
  Length em;         ///< of the type
  Length line_step;  ///< from baseline to baseline
  Length height() const { return static_cast<double>(lines.size()) * line_step; }
};

// Line widths (ISO 128, narrow to wide as 1 to 2), and what they mean.
inline constexpr Length narrow_line = 0.18 * mm;  ///< inside: cells, dimensions, hatching, what is hidden or beside
inline constexpr Length wide_line = 0.35 * mm;    ///< edges of what is drawn, round blocks
inline constexpr Length hold_line = 0.7 * mm;     ///< a hold

/// Puts marks on a page, in the nominal sizes of lettering times the template's. Text never runs out of its box: it
/// steps down to its least size, is set in the narrow face, wrapped, and what is still too long is cut into lines by
/// the caller or is a broken promise here.
class Canvas {
 public:
  /// `lettering`: how high all words are to be, of their nominal sizes; > 0.
  Canvas(Page& page, const FontMetrics& fonts, double lettering = 1)
      : page_{page}, fonts_{fonts}, lettering_{lettering} {}

  Page& page() { return page_; }
  const FontMetrics& fonts() const { return fonts_; }
  /// Are words to be higher than their nominal sizes?
  bool is_enlarged() const { return lettering_ > 1; }
  /// Puts marks on the same page, words in their nominal sizes.
  Canvas not_enlarged() const { return {page_, fonts_}; }
  /// Of words of that size.
  Length capitals(Lettering size) const { return lettering_ * nominal(size); }

  /// A line of text on a baseline; `at` is the left end, middle or right end of it as the style aligns.
  void text(Spot at, std::string_view words, const TextStyle& style);
  /// The same turned by a quarter anticlockwise: reads from below upwards, `at` is its beginning.
  void text_upright(Spot at, std::string_view words, const TextStyle& style);
  /// One line in the middle of a box's height, at the largest size that fits, in the regular face's narrow one where
  /// that keeps it larger. Words that do not fit at the least size are set in as many lines as the box holds; false
  /// when even those do not hold them (nothing is drawn then).
  bool text_in(const Box& box, std::string_view words, const TextStyle& style);
  /// The same; what finds no room enlarged is set as without, and what even so finds none is cut, with an ellipsis.
  void text_fitted(const Box& box, std::string_view words, TextStyle style);
  /// Lines of a paragraph, the first below `top`.
  void paragraph(Spot top_left, Length width, const Paragraph& lines, const TextStyle& style);

  void line(Spot from, Spot to, Length width = narrow_line, Dash dash = Dash::solid);
  void polyline(Path path, Length width, Dash dash = Dash::solid);
  /// From the last corner back to the first.
  void outline(Path path, Length width, Dash dash = Dash::solid);
  void strokes(std::vector<Path> paths, Length width, Dash dash = Dash::solid);
  void rectangle(const Box& box, Length width = narrow_line);
  void filled(Path path, Ink ink = Ink::black);
  /// Grey: heads, and what nobody fills in. Before the words that stand on it.
  void shade(const Box& box);
  /// Its outline, or filled black where `width` is nothing.
  void ellipse(const Box& box, Length width = narrow_line, Dash dash = Dash::solid);
  void circle(Spot centre, Length radius, Length width = narrow_line, Dash dash = Dash::solid);
  void add(Mark mark, Role role);

  Length width_of(std::string_view words, const TextStyle& style) const;
  /// Breaks words at spaces (and, where a word is wider than the box, inside it) into lines no wider than `width`.
  Paragraph broken(std::string_view words, Length width, const TextStyle& style) const;
  /// Of the words of a text: no line of it may be narrower.
  Length widest_word(std::string_view text, const TextStyle& style) const;

  /// Of the type.
  Length em(const TextStyle& style) const;

 private:
  Page& page_;
  const FontMetrics& fonts_;
  double lettering_;
};

/// How many of such lines a box of that height holds, one at least.
std::size_t lines_in(Length height, const Paragraph& lines);
/// The first so many lines, the last of them with an ellipsis where lines were left out.
std::vector<std::string> first_lines(const Canvas& canvas, const Paragraph& lines, std::size_t count, Length width,
                                     const TextStyle& style);

/// Words that find no room at the regular face's size may have its narrow one.
TextStyle narrowed(TextStyle style);
TextStyle in_bold(TextStyle style);

/// The box less a border on every side.
Box inside(const Box& box, Length border);
Path corners(const Box& box);

}  // namespace blankwright
