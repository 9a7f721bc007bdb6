#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "found_words.h"

// How much of a traveller's pages is used, by their pictures.

namespace blankwright {

inline constexpr int fill_dots_per_inch = 50;
inline constexpr double template_margin_mm = 12;  // of the templates that are shipped
inline constexpr double foot_mm = 10;             // above it: who made the sheet, and its number

inline int dots(double millimetres) { return static_cast<int>(std::lround(millimetres / 25.4 * fill_dots_per_inch)); }

inline bool is_white(const Picture& p, int left, int top, int right, int bottom) {
  for (int y = std::max(0, top); y < std::min(p.height, bottom); ++y) {
    for (int x = std::max(0, left); x < std::min(p.width, right); ++x) {
      if (p.at(x, y) < 250) return false;
    }
  }
  return true;
}

/// How far down the last ink stands above the foot, as a share of the page.
inline double used(const Picture& p) {
  int last = p.height - dots(template_margin_mm + foot_mm);
  while (last > 0 && is_white(p, 0, last - 1, p.width, last)) --last;
  return static_cast<double>(last) / p.height;
}

/// The numbers of a traveller's pages that are less than a third full, of all but the last one of each person: those
/// of the turner begin with the sheet that is called so.
inline std::vector<int> hardly_used_pages(const std::string& file) {
  const auto pictures = all_printed(file, fill_dots_per_inch);
  int turner = 0;
  for (const FoundWord& word : found_words(file)) {
    if (turner == 0 && word.top < 72 && word.text == "Turner's") turner = word.page;
  }
  std::vector<int> printed;
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    const Picture& p = pictures.at(i);
    if (!is_white(p, 0, 0, p.width, p.height)) printed.push_back(static_cast<int>(i) + 1);
  }
  std::vector<int> out;
  for (std::size_t i = 0; i < printed.size(); ++i) {
    const bool last_of_a_person = i + 1 == printed.size() || printed.at(i + 1) == turner;
    const double share = used(pictures.at(static_cast<std::size_t>(printed.at(i) - 1)));
    if (!last_of_a_person && share < 1.0 / 3) out.push_back(printed.at(i));
  }
  return out;
}

}  // namespace blankwright
