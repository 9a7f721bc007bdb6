#include "found_words.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <regex>

#include "paper.h"

namespace blankwright {
namespace {

bool ink_overlaps(const FoundWord& a, const FoundWord& b) {
  const double slack = 0.2;
  return a.page == b.page && a.left < b.right - slack && b.left < a.right - slack && a.top < b.bottom - slack &&
         b.top < a.bottom - slack;
}

}  // namespace

std::vector<FoundWord> found_words(const std::string& file) {
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

FoundWord ink_of(FoundWord word) {
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

bool overlap(const FoundWord& one, const FoundWord& other) { return ink_overlaps(ink_of(one), ink_of(other)); }

std::vector<std::string> misplaced(const std::vector<FoundWord>& words, double width, double height) {
  std::vector<std::string> faults;
  std::vector<FoundWord> ink;
  for (const FoundWord& word : words) {
    const bool on_paper = word.left >= 0 && word.top >= 0 && word.right <= width && word.bottom <= height;
    if (!on_paper) faults.push_back(fmt::format("{} leaves page {}", word.text, word.page));
    ink.push_back(ink_of(word));
  }
  for (std::size_t i = 0; i < ink.size(); ++i) {
    for (std::size_t j = i + 1; j < ink.size() && ink.at(j).page == ink.at(i).page; ++j) {
      if (!ink_overlaps(ink.at(i), ink.at(j))) continue;
      faults.push_back(fmt::format("page {}: {} overlaps {}", ink.at(i).page, ink.at(i).text, ink.at(j).text));
    }
  }
  return faults;
}

std::vector<FoundBox> found_boxes(const std::string& file) {
  const auto plain = run_tool("qpdf --qdf --object-streams=disable " + shell_quoted(file) + " -");
  REQUIRE(plain.status == 0);
  const std::string n = "(-?[0-9.]+) ";
  const std::regex mark{"%% Contents for page ([0-9]+)|(?:^|\n)" + n + n + "m " + n + n + "l " + n + n + "l " + n +
                        n + "l h S"};
  const double points = 72 / 25.4;
  std::vector<FoundBox> boxes;
  int page = 0;
  for (std::sregex_iterator it{plain.out.begin(), plain.out.end(), mark}, end; it != end; ++it) {
    if ((*it)[1].matched) {
      page = std::stoi((*it)[1]);
      continue;
    }
    const auto number = [&](std::size_t group) { return std::stod((*it)[group]) * points; };
    // Corners as they follow each other: (2, 3), (4, 5), (6, 7), (8, 9).
    const bool upright = number(3) == number(5) && number(4) == number(6) && number(7) == number(9);
    if (upright) boxes.push_back({page, number(2), number(3), number(6), number(7)});
  }
  return boxes;
}

}  // namespace blankwright
