#include "plan/part/stud_stock.h"

#include <algorithm>
#include <numeric>
#include <set>

#include "measure/quantity_text.h"

namespace blankwright {
namespace {

/// What there is of a thread, piece by piece; of a row no more than `most`.
std::multiset<Length> pieces_of(const Thread& thread, std::span<const StudStock> stock, int most) {
  std::multiset<Length> pieces;
  for (const StudStock& row : stock) {
    if (!is_same_thread(row.thread.value, thread)) continue;
    for (int i = 0; i < std::min(row.count.value, most); ++i) pieces.insert(row.length.value);
  }
  return pieces;
}

/// Cuts one stud; false where nothing is long enough.
bool cut_one(std::multiset<Length>& pieces, Length stud, Length kerf) {
  const auto piece = std::ranges::find_if(pieces, [&](Length there) { return fits(there, stud); });
  if (piece == pieces.end()) return false;
  const Length rest = *piece - stud - kerf;
  pieces.erase(piece);
  if (rest > Length{}) pieces.insert(rest);
  return true;
}

}  // namespace

bool is_same_thread(const Thread& a, const Thread& b) {
  constexpr Length hair = 1e-3 * mm;
  return a.system == b.system && abs(a.major - b.major) < hair && abs(a.pitch - b.pitch) < hair &&
         a.left_hand == b.left_hand;
}

std::vector<int> studs_from_stock(std::span<const StudsWanted> wanted, std::span<const StudStock> stock,
                                  Length kerf) {
  std::vector<std::size_t> longest_first(wanted.size());
  std::iota(longest_first.begin(), longest_first.end(), std::size_t{0});
  std::ranges::stable_sort(longest_first, std::ranges::greater{}, [&](std::size_t i) { return wanted[i].length; });
  const int all = std::accumulate(wanted.begin(), wanted.end(), 0,
                                  [](int sum, const StudsWanted& one) { return sum + one.count; });
  std::vector<int> given(wanted.size());
  std::vector<bool> is_cut(wanted.size());
  for (const std::size_t first : longest_first) {
    if (is_cut.at(first)) continue;
    auto pieces = pieces_of(wanted[first].thread, stock, all);
    for (const std::size_t i : longest_first) {
      if (is_cut.at(i) || !is_same_thread(wanted[i].thread, wanted[first].thread)) continue;
      while (given.at(i) < wanted[i].count && cut_one(pieces, wanted[i].length, kerf)) ++given.at(i);
      is_cut.at(i) = true;
    }
  }
  return given;
}

}  // namespace blankwright
