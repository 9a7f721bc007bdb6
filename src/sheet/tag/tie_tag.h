#pragma once

#include <optional>
#include <vector>

#include "sheet/frame/block_drawing.h"

namespace blankwright {

/// Tags that are cut out and tied on, one below the other on the template's paper. From the left: a flap that is
/// folded behind the tag to strengthen its eye, the tag, and a stub that is torn off.
struct TieTagLayout {
  Box first;  ///< flap, tag and stub of the topmost one
  Length flap;
  Length stub;
  Length width;  ///< of the tag alone
  Length hole;
  std::vector<PlacedBlock> on_tag, on_stub;  ///< from the corner of the whole
  int on_a_page = 1;
};

TieTagLayout tie_tag_layout(const Template& t);

/// Draws the tag at a place of the page, from 0. Returns the first words that found no room.
std::optional<BlockWords> draw_tie_tag(Canvas& canvas, const TieTagLayout& layout, const BlockContent& content,
                                       const BlockStyle& style, int place);

}  // namespace blankwright
