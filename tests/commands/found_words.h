#pragma once

#include <string>
#include <vector>

namespace blankwright {

/// A word as pdftotext finds it on a page, in points from the top left.
struct FoundWord {
  int page;
  double left, top, right, bottom;
  std::string text;
};

std::vector<FoundWord> found_words(const std::string& file);

/// The box of a word's ink. pdftotext gives boxes from ascender to descender, which touch from line to line; ink
/// stands between 25 % below their top and 20 % above their bottom. Of a word that is set upright the same holds from
/// left to right; one of two symbols may be either, so that it is taken for as small as both.
FoundWord ink_of(FoundWord word);

/// Do two words' ink boxes overlap?
bool overlap(const FoundWord& one, const FoundWord& other);

/// Words that leave the paper, whose size is given in points, and words that overlap: a sentence each.
std::vector<std::string> misplaced(const std::vector<FoundWord>& words, double width, double height);

/// A rectangle of a page's content, in points from the top left: how the program writes one, which is all that this
/// knows of it (ISO 32000-1, 8.5.2: m, l, h).
struct FoundBox {
  int page;
  double left, top, right, bottom;
};

std::vector<FoundBox> found_boxes(const std::string& file);

}  // namespace blankwright
