#include <algorithm>
#include <cmath>
#include <vector>

#include <doctest/doctest.h>

#include "cutting_cases.h"

using namespace blankwright;

namespace {

int in_mm(Length l) { return static_cast<int>(std::lround(l / mm)); }

/// An exhaustive search on a board whose measures are all whole millimetres. Its space: every way to part the board
/// across (or not), to rip each panel into strips of the section over its whole length, and to crosscut each strip,
/// with every cut at any whole millimetre. Edges, defects, kerf and blanks are whole millimetres, so all places at
/// which something can touch something are among these; that no place between them does better is the usual argument
/// of pushing everything to the left and to the near edge until it touches. Nothing of it is taken from the code
/// under test: no places are singled out, and no blank or strip is taken because it comes first.
class Search {
 public:
  Search(const Board& board, const CuttingInput& in)
      : board_{board},
        section_{in_mm(in.section)},
        along_{in_mm(in.length)},
        kerf_{in_mm(in.kerf)},
        left_{in_mm(in.end_trim)},
        right_{in_mm(board.length) - in_mm(in.end_trim)},
        length_{in_mm(board.length)},
        width_{in_mm(board.width)},
        from_(static_cast<std::size_t>(length_ + 1), unknown),
        strip_(static_cast<std::size_t>((width_ + 1) * (length_ + 1) * (length_ + 1)), unknown) {}

  /// Most blanks on the board's face.
  int most() { return from(left_); }
  /// The same without parting it.
  int most_ripped_whole() { return panel(left_, right_); }

 private:
  /// With a panel beginning at `x`.
  int from(int x) {
    if (x >= right_) return 0;
    int& known = from_.at(static_cast<std::size_t>(x));
    if (known != unknown) return known;
    int best = 0;
    for (int end = x + 1; end <= right_; ++end) best = std::max(best, panel(x, end) + from(end + kerf_));
    return known = best;
  }

  int panel(int x, int end) {
    std::vector<int> best(static_cast<std::size_t>(width_ + section_ + kerf_ + 1));  // from each distance on
    for (int y = width_ - section_; y >= 0; --y) {
      const auto at = [&](int distance) -> int& { return best.at(static_cast<std::size_t>(distance)); };
      at(y) = std::max(at(y + 1), strip(y, x, end) + at(y + section_ + kerf_));
    }
    return best.front();
  }

  int strip(int y, int x, int end) {
    if (x + along_ > end) return 0;
    int& known = strip_.at(static_cast<std::size_t>((y * (length_ + 1) + x) * (length_ + 1) + end));
    if (known != unknown) return known;
    int best = strip(y, x + 1, end);
    if (is_clear(y, x)) best = std::max(best, 1 + strip(y, x + along_ + kerf_, end));
    return known = best;
  }

  bool is_clear(int y, int x) const {
    return std::ranges::none_of(board_.defects, [&](const BoardArea& d) {
      return in_mm(d.near) < y + section_ && y < in_mm(d.far) && in_mm(d.from) < x + along_ && x < in_mm(d.to);
    });
  }

  const Board& board_;
  static constexpr int unknown = -1;
  int section_, along_, kerf_, left_, right_, length_, width_;
  std::vector<int> from_;   ///< best found, by where the panel begins
  std::vector<int> strip_;  ///< and by near edge, beginning and end of what is left of a strip
};

}  // namespace

TEST_CASE("a board gives as many blanks as the best plan that an exhaustive search finds") {
  RandomNumbers random{20250311};
  double worst = 1;
  int found = 0, cases = 0, better_parted = 0;
  while (cases < 200) {
    CuttingInput in = random_case(random, {40, 70, 15, 36, 5, 12, 8, 20, 1, 9, 3, 4});
    Board& board = in.boards.front();
    board.thickness = in.section;
    Search search{board, in};
    const int most = search.most();
    if (most == 0) continue;
    ++cases;
    CAPTURE(cases);
    const auto blanks = static_cast<int>(cutting_plan(in).blanks.size());
    CHECK(blanks <= most);
    worst = std::min(worst, static_cast<double>(blanks) / most);
    found += most;
    better_parted += search.most_ripped_whole() < most ? 1 : 0;
  }
  MESSAGE("worst ratio " << worst << " over " << cases << " boards with " << found << " blanks; " << better_parted
                         << " give more when parted");
  CHECK(better_parted >= 10);
  CHECK(worst >= 0.98);
}
