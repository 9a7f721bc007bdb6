#include "measure/nearest.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace blankwright {

namespace {

char folded(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = std::exchange(row.at(0), i + 1);
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t exchanged = diagonal + (folded(a[i]) == folded(b[j]) ? 0 : 1);
      diagonal = row.at(j + 1);
      row.at(j + 1) = std::min({exchanged, diagonal + 1, row.at(j) + 1});
    }
  }
  return row.back();
}

std::vector<std::string> nearest_names(std::string_view typed, std::span<const std::string> known, std::size_t most) {
  const std::size_t near = std::max<std::size_t>(2, typed.size() / 3);
  std::vector<std::pair<std::size_t, std::string>> found;
  for (const std::string& name : known) {
    const std::size_t distance = edit_distance(typed, name);
    // With every letter exchanged nothing of the name was typed.
    if (distance <= near && distance < std::max(typed.size(), name.size())) found.emplace_back(distance, name);
  }
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (const auto& entry : found) {
    if (names.size() < most) names.push_back(entry.second);
  }
  return names;
}

}  // namespace blankwright
