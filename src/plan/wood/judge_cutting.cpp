#include "plan/wood/judge_cutting.h"

#include <optional>

#include "diagnose/problem.h"
#include "diagnose/says_wood.h"
#include "measure/quantity_text.h"

namespace blankwright {
namespace {

/// One side of a defect: where it begins and ends, and how far its board goes.
struct Extent {
  const Given<Length>& begin;
  const Given<Length>& end;
  const Given<Length>& board;
  Keyword begin_key, end_key, board_key;
};

void judge_extent(const Extent& e, Diagnostics& out) {
  if (e.end.value <= e.begin.value) {
    out.error(Problem::not_a_defect, e.end.at, says::defect_ends_before_it_begins, e.end_key, e.begin_key)
        .label(e.begin.at, says::where_it_begins);
    return;
  }
  if (!fits(e.board.value, e.end.value)) {
    out.error(Problem::not_a_defect, e.end.at, says::defect_beyond_board, e.end_key, e.board_key)
        .label(e.board.at, says::the_board);
  }
}

void judge_defect(const DefectFacts& defect, const BoardFacts& board, Diagnostics& out) {
  judge_extent({defect.from, defect.to, board.length, {"from"}, {"to"}, {"length"}}, out);
  if (defect.near && defect.far) {
    judge_extent({*defect.near, *defect.far, board.width, {"near"}, {"far"}, {"width"}}, out);
  } else if (defect.near || defect.far) {
    out.error(Problem::not_a_defect, defect.near ? defect.near->at : defect.far->at, says::half_a_defect,
              Keyword{defect.near ? "near" : "far"}, Keyword{defect.near ? "far" : "near"})
        .hint(says::give_both_sides);
  }
}

/// Which of a board's measures is too small for any blank, and what is said of it, with the blank's section and
/// length.
struct TooSmall {
  const Given<Length>& measure;
  Sentence<2> says;
};

std::optional<TooSmall> too_small(const BoardFacts& board, const CuttingPlan& plan, const Shop& shop) {
  if (!fits(board.thickness.value, plan.section)) return TooSmall{board.thickness, says::board_too_thin};
  if (!fits(board.width.value, plan.section)) return TooSmall{board.width, says::board_too_narrow};
  const Length usable = board.length.value - 2 * shop.allowances.end_trim.value;
  if (!fits(usable, plan.length)) return TooSmall{board.length, says::board_too_short};
  return std::nullopt;
}

}  // namespace

bool boards_make_sense(const Order& order, Diagnostics& out) {
  const int errors = out.errors();
  const auto& boards = order.wood.boards;
  for (auto board = boards.begin(); board != boards.end(); ++board) {
    for (auto other = boards.begin(); other != board; ++other) {
      if (other->name.value != board->name.value) continue;
      out.error(Problem::keys_disagree, board->name.at, says::two_boards_of_a_name, board->name.value)
          .label(other->name.at, says::the_other_one);
      break;
    }
    for (const DefectFacts& defect : board->defects) judge_defect(defect, *board, out);
  }
  return out.errors() == errors;
}

void judge_cutting(const CuttingPlan& plan, const Order& order, const Shop& shop, Diagnostics& out) {
  if (order.wood.boards.empty() || plan.missing() <= 0) return;
  const int missing = plan.missing();
  const auto at_least = [&](Length l) { return printed(l, {shop.units.value, Round::up, Fineness::sawn}); };
  const Length needed =
      missing * plan.length + (missing - 1) * shop.allowances.kerf.value + 2 * shop.allowances.end_trim.value;
  Diagnostic& said = out.warning(Problem::boards_too_few, order.wood.boards.front().name.at,
                                 plan.witness ? says::boards_give_with_witness : says::boards_give,
                                 plan.blanks.size(), plan.wanted, missing, at_least(plan.section), at_least(needed));
  for (const BoardFacts& board : order.wood.boards) {
    if (const auto small = too_small(board, plan, shop)) {
      said.label(small->measure.at, small->says, at_least(plan.section), at_least(plan.length));
    }
  }
  said.hint(says::add_boards);
}

}  // namespace blankwright
