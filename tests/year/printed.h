#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace simulated {

/// A word on paper and where it stands, in points from the upper left corner.
struct Word {
  std::string text;
  double left = 0, top = 0, right = 0, bottom = 0;
  double middle() const { return (top + bottom) / 2; }
};

/// One printed page, read back from the PDF as `pdftotext -bbox` tells it: what a person sees, not what the program
/// meant.
struct PrintedPage {
  std::vector<Word> words;

  /// Where these words follow each other on a line, the first of them; the n-th such place.
  const Word* find(std::string_view words_in_a_row, int nth = 0) const;
  /// All words of a strip, from left to right in lines from top to bottom, with a blank between them.
  std::string within(double left, double top, double right, double bottom) const;
  /// The value below a caption, as far as the next caption on its line or for so many points.
  std::string below(std::string_view caption, double height = 34, int nth = 0) const;
  /// What stands on the line of these words, behind them.
  std::string behind(std::string_view words_in_a_row) const;
  /// The lines of the page, each from left to right.
  std::vector<std::vector<Word>> lines() const;
};

std::vector<PrintedPage> printed_pages(const std::string& bbox_text);

std::string joined(const std::vector<Word>& words);

}  // namespace simulated
