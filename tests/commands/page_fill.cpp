#include "page_fill.h"

#include <algorithm>

namespace blankwright {

bool is_white(const Picture& p, int left, int top, int right, int bottom) {
  for (int y = std::max(0, top); y < std::min(p.height, bottom); ++y) {
    for (int x = std::max(0, left); x < std::min(p.width, right); ++x) {
      if (p.at(x, y) < 250) return false;
    }
  }
  return true;
}

double used(const Picture& p) {
  const int first = dots(template_margin_mm + head_mm), end = p.height - dots(template_margin_mm + foot_mm);
  int last = end;
  while (last > first && is_white(p, 0, last - 1, p.width, last)) --last;
  return static_cast<double>(last - first) / (end - first);
}

FoundPages found_pages(const std::string& file) { return {found_words(file), all_printed(file, fill_dots_per_inch)}; }

std::vector<int> hardly_used(const FoundPages& pages) {
  const auto& [words, pictures] = pages;
  int turner = 0, desk = 0;
  for (const FoundWord& word : words) {
    if (turner == 0 && word.top < 72 && word.text == "Turner's") turner = word.page;
    if (word.top < 72 && (word.text.starts_with("Routing") || word.text == "Bottle")) desk = word.page;
  }
  std::vector<int> printed;
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    const Picture& p = pictures.at(i);
    if (!is_white(p, 0, 0, p.width, p.height)) printed.push_back(static_cast<int>(i) + 1);
  }
  std::vector<int> out;
  for (std::size_t i = 0; i < printed.size(); ++i) {
    const bool last_of_a_person = i + 1 == printed.size() || printed.at(i + 1) == turner || printed.at(i) == desk;
    const double share = used(pictures.at(static_cast<std::size_t>(printed.at(i) - 1)));
    if (!last_of_a_person && share < 1.0 / 3) out.push_back(printed.at(i));
  }
  return out;
}

}  // namespace blankwright
