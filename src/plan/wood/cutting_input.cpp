#include "plan/wood/cutting_input.h"

#include <utility>

namespace blankwright {

CuttingInput cutting_input(const Order& order, const Shop& shop, Length section, Length length, int count,
                           bool witness) {
  CuttingInput in{{},
                  section,
                  length,
                  count,
                  witness,
                  shop.allowances.kerf.value,
                  shop.allowances.end_trim.value,
                  order.wood.matched.value};
  for (const BoardFacts& facts : order.wood.boards) {
    Board board{facts.name.value, facts.length.value, facts.width.value, facts.thickness.value, {}};
    for (const DefectFacts& d : facts.defects) {
      board.defects.push_back(
          {d.from.value, d.to.value, d.near ? d.near->value : 0 * mm, d.far ? d.far->value : facts.width.value});
    }
    in.boards.push_back(std::move(board));
  }
  return in;
}

}  // namespace blankwright
