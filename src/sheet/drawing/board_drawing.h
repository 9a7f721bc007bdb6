#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "plan/wood/cutting.h"
#include "read/words.h"
#include "sheet/mark/canvas.h"

namespace blankwright {

/// What stands on a blank's place in a drawing of its board.
struct BlankLabel {
  std::string position;  ///< "2-3"
  std::string id;        ///< empty where none was issued
  bool witness = false;
};

/// How a board's face is drawn: along the grain from left to right, the near edge below. Long boards are reduced more
/// along the grain than across, so that what stands on their strips can be read.
struct BoardScale {
  int along = 1;   ///< reduction, 1 : along
  int across = 1;  ///< 1 : across, never more reduced than along
};

/// The largest scale 1 : n at which a board finds room in that width and is no higher than `most`; across larger
/// where strips of that section would be too narrow to write on.
BoardScale board_scale(const Board& board, Length section, Length width, Length most);

/// How much height draw_board() takes.
Length drawing_height(const Board& board, BoardScale scale);

/// What found no room in a drawing, and so has to be listed.
struct Unlabelled {
  std::vector<std::size_t> cuts;    ///< index in the plan's cuts
  std::vector<std::size_t> blanks;  ///< index in the plan's blanks
};

/// Draws a board below `top_left`: outline, defects hatched, what the blade takes in black, every cut with its
/// number, every blank with its position, ID and the witness's mark; below it where distances are measured from and
/// how the grain runs. Numbers of cuts over the whole board stand at its edge, the others at the middle of their cut.
/// A resaw does not show on the face. `labels` are those of the plan's blanks.
Unlabelled draw_board(Canvas& canvas, Spot top_left, Length width, const CuttingPlan& plan, std::size_t board,
                      BoardScale scale, std::span<const BlankLabel> labels, const WordTable& words);

}  // namespace blankwright
