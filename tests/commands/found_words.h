#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <regex>
#include <string>
#include <vector>

#include "paper.h"

namespace blankwright {

/// A word as pdftotext finds it on a page, in points from the top left.
struct FoundWord {
  int page;
  double left, top, right, bottom;
  std::string text;
};

inline std::vector<FoundWord> found_words(const std::string& file) {
  const auto run = run_tool("pdftotext -bbox " + shell_quoted(file) + " -");
  REQUIRE(run.status == 0);
  const std::regex line{
      R"re(<page |<word xMin="([0-9.-]+)" yMin="([0-9.-]+)" xMax="([0-9.-]+)" yMax="([0-9.-]+)">(.*?)</word>)re"};
  std::vector<FoundWord> words;
  int page = 0;
  for (std::sregex_iterator it{run.out.begin(), run.out.end(), line}, end; it != end; ++it) {
    const auto number = [&](std::size_t group) { return std::stod((*it)[group].str()); };
    if ((*it)[0].str().starts_with("<page")) {
      ++page;
    } else {
      std::string text = std::regex_replace((*it)[5].str(), std::regex{"&apos;"}, "'");
      text = std::regex_replace(text, std::regex{"&amp;"}, "&");
      words.push_back({page, number(1), number(2), number(3), number(4), text});
    }
  }
  return words;
}

/// The box of a word's ink. pdftotext gives boxes from ascender to descender, which touch from line to line; ink
/// stands between 25 % below their top and 20 % above their bottom. Of a word that is set upright the same holds from
/// left to right; one of two symbols may be either, so that it is taken for as small as both.
inline FoundWord ink_of(FoundWord word) {
  const auto begins = [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; };  // a symbol in UTF-8
  const bool is_short = std::count_if(word.text.begin(), word.text.end(), begins) <= 2;
  const double width = word.right - word.left, height = word.bottom - word.top;
  const bool upright = !is_short && height > width;
  if (upright || is_short) {
    word.left += 0.25 * width;
    word.right -= 0.2 * width;
  }
  if (!upright) {
    word.top += 0.25 * height;
    word.bottom -= 0.2 * height;
  }
  return word;
}

/// Do two words' ink boxes overlap?
inline bool overlap(const FoundWord& one, const FoundWord& other) {
  const double slack = 0.2;
  const FoundWord a = ink_of(one), b = ink_of(other);
  return a.page == b.page && a.left < b.right - slack && b.left < a.right - slack && a.top < b.bottom - slack &&
         b.top < a.bottom - slack;
}

}  // namespace blankwright
