#pragma once

#include <algorithm>
#include <string>

#include "plan/wood/cutting.h"
#include "random_numbers.h"

namespace blankwright {

/// How large the boards of random cases are, in whole millimetres.
struct CaseSizes {
  int length_low, length_high, width_low, width_high;    ///< of a board
  int section_low, section_high, along_low, along_high;  ///< of a blank
  int boards_most, defects_most, kerf_most, trim_most;
};

inline Board random_board(RandomNumbers& random, const CaseSizes& s, int number) {
  const int length = random.whole(s.length_low, s.length_high), width = random.whole(s.width_low, s.width_high);
  Board board{"board " + std::to_string(number), length * mm, width * mm, random.whole(15, 90) * mm, {}};
  for (int n = random.whole(0, s.defects_most); n > 0; --n) {
    const int from = random.whole(0, length - 1), near = random.whole(0, width - 1);
    const int to = random.whole(from + 1, std::min(length, from + length / 3 + 1));
    const int far = random.whole(near + 1, std::min(width, near + width / 2 + 1));
    const bool stretch = random.whole(1, 5) == 1;  // over the whole width
    board.defects.push_back({from * mm, to * mm, stretch ? 0 * mm : near * mm, stretch ? width * mm : far * mm});
  }
  return board;
}

/// Measures in whole millimetres, so that things often just fit or just touch.
inline CuttingInput random_case(RandomNumbers& random, const CaseSizes& s) {
  CuttingInput in;
  in.section = random.whole(s.section_low, s.section_high) * mm;
  in.length = random.whole(s.along_low, s.along_high) * mm;
  in.kerf = random.whole(0, s.kerf_most) * mm;
  in.end_trim = random.whole(0, s.trim_most) * mm;
  in.count = 10000;
  const int boards = random.whole(1, s.boards_most);
  for (int n = 1; n <= boards; ++n) in.boards.push_back(random_board(random, s, n));
  return in;
}

}  // namespace blankwright
