#pragma once

#include <vector>

#include "plan/wood/cutting_input.h"

namespace blankwright {

/// A strip of a panel: its near edge, and where in it blanks begin.
struct LaidStrip {
  Length near;
  std::vector<Length> starts;
};

/// The strips of a panel from the near edge; each has a blank at least.
using LaidPanel = std::vector<LaidStrip>;

/// The blanks of one layer of a panel.
int blanks_in(const LaidPanel& panel);

/// Where on the board's face most blanks can be sawn: panels from the left. The board is parted only where it gives
/// fewer than `enough` as one panel and more when parted; of equal layouts the one with fewest panels, then rips.
///
/// Every best layout can be pushed to the near edge and to the left until each strip lies at the edge, a kerf from
/// the strip before or at a defect, and each blank likewise in its strip. So it suffices to try these places: along a
/// strip the next free one is best; across the panel, and from panel to panel, dynamic programming over the places.
/// Source of the places: "normal patterns", Christofides and Whitlock, Operations Research 25 (1977) 30; here with
/// the defects' edges among them.
///
/// A board with very many places (long, wide, small blanks, many defects: millions of panels to try) is not parted.
std::vector<LaidPanel> board_layout(const Board& board, const CuttingInput& in, int enough);

}  // namespace blankwright
