#include "plan/wood/judge_cutting.h"

#include <fmt/format.h>

#include <optional>
#include <string_view>

#include "diagnose/problem.h"
#include "measure/quantity_text.h"

namespace blankwright {
namespace {

/// One side of a defect: where it begins and ends, and how far its board goes.
struct Extent {
  const Given<Length>& begin;
  const Given<Length>& end;
  const Given<Length>& board;
  std::string_view begin_key, end_key, board_key;
};

void judge_extent(const Extent& e, Diagnostics& out) {
  if (e.end.value <= e.begin.value) {
    out.error(Problem::not_a_defect, e.end.at,
              fmt::format("defect ends where it begins or before: `{}` has to be more than `{}`", e.end_key,
                          e.begin_key))
        .label(e.begin.at, "where it begins");
    return;
  }
  if (!fits(e.board.value, e.end.value)) {
    out.error(
           Problem::not_a_defect, e.end.at,
           fmt::format("defect reaches beyond its board: `{}` is more than the board's {}", e.end_key, e.board_key))
        .label(e.board.at, "the board");
  }
}

void judge_defect(const DefectFacts& defect, const BoardFacts& board, Diagnostics& out) {
  judge_extent({defect.from, defect.to, board.length, "from", "to", "length"}, out);
  if (defect.near && defect.far) {
    judge_extent({*defect.near, *defect.far, board.width, "near", "far", "width"}, out);
  } else if (defect.near || defect.far) {
    out.error(Problem::not_a_defect, defect.near ? defect.near->at : defect.far->at,
              fmt::format("defect has `{}` without `{}`", defect.near ? "near" : "far", defect.near ? "far" : "near"))
        .hint("give both, or neither for the board's whole width");
  }
}

/// Which of a board's measures is too small for any blank, and the word for it.
struct TooSmall {
  const Given<Length>& measure;
  std::string_view word;
};

std::optional<TooSmall> too_small(const BoardFacts& board, const CuttingPlan& plan, const Shop& shop) {
  if (!fits(board.thickness.value, plan.section)) return TooSmall{board.thickness, "too thin"};
  if (!fits(board.width.value, plan.section)) return TooSmall{board.width, "too narrow"};
  const Length usable = board.length.value - 2 * shop.allowances.end_trim.value;
  if (!fits(usable, plan.length)) return TooSmall{board.length, "too short"};
  return std::nullopt;
}

}  // namespace

bool boards_make_sense(const Order& order, Diagnostics& out) {
  const int errors = out.errors();
  const auto& boards = order.wood.boards;
  for (auto board = boards.begin(); board != boards.end(); ++board) {
    for (auto other = boards.begin(); other != board; ++other) {
      if (other->name.value != board->name.value) continue;
      out.error(
             Problem::keys_disagree, board->name.at,
             fmt::format("two boards are called \"{}\"; a blank could not be traced to its board", board->name.value))
          .label(other->name.at, "the other one");
      break;
    }
    for (const DefectFacts& defect : board->defects) judge_defect(defect, *board, out);
  }
  return out.errors() == errors;
}

void judge_cutting(const CuttingPlan& plan, const Order& order, const Shop& shop, Diagnostics& out) {
  if (order.wood.boards.empty() || plan.missing() <= 0) return;
  const int missing = plan.missing();
  const auto at_least = [&](Length l) { return text(l, {shop.units.value, Round::up, Fineness::sawn}); };
  const Length needed =
      missing * plan.length + (missing - 1) * shop.allowances.kerf.value + 2 * shop.allowances.end_trim.value;
  Diagnostic& said = out.warning(
      Problem::boards_too_few, order.wood.boards.front().name.at,
      fmt::format(
          "boards give {} of {} blanks{}; for the {} missing it takes a clear board {} wide and thick, {} long",
          plan.blanks.size(), plan.wanted, plan.witness ? ", one of them the witness" : "", missing,
          at_least(plan.section), at_least(needed)));
  for (const BoardFacts& board : order.wood.boards) {
    if (const auto small = too_small(board, plan, shop)) {
      said.label(small->measure.at, fmt::format("{} for a blank of {} × {}", small->word, at_least(plan.section),
                                                at_least(plan.length)));
    }
  }
  said.hint("add what there is besides under [[wood.boards]], or buy that");
}

}  // namespace blankwright
