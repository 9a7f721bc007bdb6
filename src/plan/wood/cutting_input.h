#pragma once

#include <string>
#include <vector>

#include "measure/quantity.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// A rectangle on a board's face: along the grain from the left end, across from the near edge.
struct BoardArea {
  Length from, to;   ///< along, from < to
  Length near, far;  ///< across, near < far
};

/// A board as the saw sees it.
struct Board {
  std::string name;
  Length length, width, thickness;
  std::vector<BoardArea> defects;  ///< through the whole thickness
};

struct CuttingInput {
  std::vector<Board> boards;
  Length section, length;  ///< of a sawn blank, > 0
  int count = 0;           ///< blanks wanted, >= 0
  bool witness = false;    ///< one blank more, from the middle of a strip
  Length kerf, end_trim;   ///< >= 0
  bool matched = false;    ///< from as few boards as can be: fullest board first
};

/// The order's boards, with the shop's kerf and end trim. For orders whose boards make sense (judge_cutting.h).
CuttingInput cutting_input(const Order& order, const Shop& shop, Length section, Length length, int count,
                           bool witness);

}  // namespace blankwright
