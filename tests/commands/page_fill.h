#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "found_words.h"
#include "paper.h"

// How much of a traveller's pages is used, by their pictures.

namespace blankwright {

inline constexpr int fill_dots_per_inch = 50;
inline constexpr double template_margin_mm = 12;  // of the templates that are shipped
inline constexpr double foot_mm = 10;             // above it: who made the sheet, and its number
inline constexpr double head_mm = 19;             // below it: the head of every sheet but of half sheets

inline int dots(double millimetres) { return static_cast<int>(std::lround(millimetres / 25.4 * fill_dots_per_inch)); }

bool is_white(const Picture& p, int left, int top, int right, int bottom);

/// How far down the last ink stands between head and foot, as a share of what is there.
double used(const Picture& p);

/// The pages of a PDF file as two tools have them.
struct FoundPages {
  std::vector<FoundWord> words;
  std::vector<Picture> pictures;
};
FoundPages found_pages(const std::string& file);

/// The numbers of a traveller's pages that are less than a third full, of all but the last one of each person: those
/// of saw and bath begin behind routing and bottle labels, those of the turner with the sheet that is called so.
std::vector<int> hardly_used(const FoundPages& pages);

}  // namespace blankwright
