#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>
#include <string>
#include <utility>

#include "plan/order/cautions.h"
#include "plan/wood/blank_place.h"
#include "sheet/drawing/board_drawing.h"
#include "sheet/frame/flowing_text.h"
#include "sheet/frame/table.h"
#include "sheet/paper/limits.h"
#include "sheet/sheet/cutting_parts.h"

namespace blankwright {
namespace {

constexpr TextStyle saw_text{.size = Lettering::machine};
constexpr TextStyle scale_style{.size = Lettering::machine, .face = Face::bold, .align = Align::right};
constexpr TextStyle saw_note{.size = Lettering::hand, .least = Lettering::hand};
constexpr TextStyle saw_small{.size = Lettering::note};
constexpr Length caption_height = 6 * mm;
constexpr Length cutting_gap = 2 * mm;
constexpr double most_of_page = 0.4;  // that one board may be high, so that two stand on a page with their notes

Printing printing(const Dossier& d) { return size_printing(d, Fineness::sawn); }

/// "820.0 × 165.0 × 52.0 mm".
std::string sizes_text(const Dossier& d, Length length, Length width, Length thickness) {
  const Printing how = printing(d);
  return fmt::format("{} × {} × {}", shown(d, rule_number(length, how)), shown(d, rule_number(width, how)),
                     shown(d, Amount{rule_number(thickness, how), column_unit<Length>(how.system)}));
}

/// What stands on the place of each blank of the cutting plan.
std::vector<BlankLabel> blank_labels(const Dossier& d, const CuttingPlan& plan) {
  std::vector<BlankLabel> labels;
  for (const CutBlank& blank : plan.blanks) labels.push_back({position_text(plan, blank), "", false});
  const auto pieces = static_cast<std::size_t>(piece_count(d)), all = static_cast<std::size_t>(blank_count(d));
  for (std::size_t n = 0; n < all; ++n) {
    const CutBlank* cut = cut_of(plan, n, pieces);
    if (cut == nullptr) continue;
    BlankLabel& label = labels.at(static_cast<std::size_t>(cut - plan.blanks.data()));
    label.witness = n >= pieces;
    if (!d.draft) label.id = d.blanks.at(n).shown();
  }
  return labels;
}

void put_cutting_facts(OrderFlow& flow, const CuttingPlan& plan) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  put_text(flow, {fmt::format("{}: {} {} {}, {}", w[Word::cutting_yield], plan.blanks.size(), w[Word::of_blanks],
                              plan.wanted, sizes_text(d, plan.length, plan.section, plan.section)),
                  in_bold(saw_text)});
  if (plan.missing() > 0) {
    put_text(flow, {fmt::format("{}: {}", w[Word::cutting_missing], plan.missing()),
                    in_bold({.size = Lettering::machine})});
  }
  std::string not_sawn;
  for (std::size_t i = 0; i < plan.boards.size(); ++i) {
    if (std::ranges::any_of(plan.blanks, [&](const CutBlank& b) { return b.board == i; })) continue;
    not_sawn += (not_sawn.empty() ? "" : ", ") + plan.boards.at(i).name;
  }
  if (!not_sawn.empty()) put_text(flow, {fmt::format("{}: {}", w[Word::cutting_not_sawn], not_sawn), saw_note});
  const auto cautions = cautions_for(d.order, d.shop, d.plan);
  const bool decayed = std::ranges::find(cautions, Caution::decayed_wood) != cautions.end();
  const std::string spores = decayed ? " " + d.sheet_template.cautions[Caution::decayed_wood] : std::string{};
  put_text(flow, {w[Word::cutting_caution] + spores + " " + w[Word::cutting_note], saw_note});
}

/// "Resaw, strip 1: 7–8; Crosscut, strip 2: 14": cuts without a number in the drawing.
std::string numbers_text(const WordTable& w, const CuttingPlan& plan, std::span<const std::size_t> cuts) {
  std::string out;
  for (std::size_t i = 0; i < cuts.size();) {
    const Cut& first = plan.cuts.at(cuts[i]);
    std::size_t end = i + 1;
    const auto goes_on = [&](const Cut& next) {
      return next.kind == first.kind && next.strip == first.strip && cuts[end] == cuts[end - 1] + 1;
    };
    while (end < cuts.size() && goes_on(plan.cuts.at(cuts[end]))) ++end;
    const int last = plan.cuts.at(cuts[end - 1]).number;
    out += fmt::format("{}{}: {}", out.empty() ? "" : "; ", kind_text(w, first), first.number);
    if (last != first.number) out += fmt::format("–{}", last);
    i = end;
  }
  return out;
}

/// The blanks that their drawing had no room for, several in a row.
Table blank_list(const WordTable& w, std::span<const BlankLabel> labels, std::span<const std::size_t> blanks) {
  constexpr std::size_t in_row = 3;
  Table table;
  for (std::size_t i = 0; i < in_row; ++i) {
    table.columns.push_back({24 * mm, 1});
    table.columns.push_back({28 * mm, 1});
    table.head.cells.push_back({{{w[Word::cutting_position], column_head}}});
    table.head.cells.push_back({{{w[Word::blank_id], column_head}}});
  }
  table.head.least_height = 6 * mm;
  for (std::size_t i = 0; i < blanks.size(); i += in_row) {
    Row row{{}, 6 * mm};
    for (std::size_t n = i; n < std::min(i + in_row, blanks.size()); ++n) {
      const BlankLabel& label = labels[blanks[n]];
      const std::string mark =
          label.witness ? fmt::format("{} {} ", w[Word::witness_mark], w[Word::witness]) : std::string{};
      row.cells.push_back({{{mark + label.position, saw_note}}});
      row.cells.push_back({{{label.id, in_bold(saw_text)}}});
    }
    row.cells.resize(2 * in_row);
    table.rows.push_back(std::move(row));
  }
  return table;
}

/// "Scale 1:5"; "Scale 1:18, across 1:5".
std::string scale_text(const WordTable& w, BoardScale scale) {
  const std::string along = fmt::format("{} 1:{}", w[Word::scale], scale.along);
  return scale.across == scale.along ? along
                                     : fmt::format("{}, {} 1:{}", along, w[Word::cutting_across], scale.across);
}

void put_board(OrderFlow& flow, const CuttingPlan& plan, std::size_t index, std::span<const BlankLabel> labels) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const Board& board = plan.boards.at(index);
  const Box whole = whole_room(flow);
  const BoardScale scale = board_scale(board, plan.section, whole.width, most_of_page * whole.height);
  const Length height = 2 * cutting_gap + caption_height + drawing_height(board, scale);
  const Box strip = next_strip(flow, height);
  Canvas canvas = canvas_of(flow);
  const Box caption{strip.x, strip.y + 2 * cutting_gap, strip.width, caption_height};
  canvas.text_fitted({caption.x, caption.y, caption.width * 0.68, caption.height},
                     fmt::format("{} {}: {}", w[Word::cutting_board], board.name,
                                 sizes_text(d, board.length, board.width, board.thickness)),
                     in_bold(saw_text));
  canvas.text_fitted({caption.x + caption.width * 0.7, caption.y, caption.width * 0.3, caption.height},
                     scale_text(w, scale), scale_style);
  const Unlabelled rest = draw_board(canvas, {strip.x, caption.bottom()}, strip.width, plan, index, scale, labels, w);
  if (!rest.cuts.empty()) {
    put_text(flow,
             {fmt::format("{}: {}", w[Word::cutting_not_numbered], numbers_text(w, plan, rest.cuts)), saw_note});
  }
  if (!rest.blanks.empty()) {
    take_strip(flow, std::min(cutting_gap, free_room(flow).height));
    put_table(flow, blank_list(w, labels, rest.blanks));
  }
}

/// The boards that something is sawn out of, in the order in which they are taken to the saw.
std::vector<std::size_t> sawn_boards(const CuttingPlan& plan) {
  std::vector<std::size_t> out;
  for (const CutBlank& blank : plan.blanks) {
    if (out.empty() || out.back() != blank.board) out.push_back(blank.board);
  }
  return out;
}

}  // namespace

/// How the blanks are sawn: a drawing to scale of every board that something is sawn out of, the blanks that found no
/// room for their ID there, and all cuts, those of one stop setting together. Nothing for an order without boards.
void cutting_sheets(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  if (!d.plan.cutting) return;
  const CuttingPlan& plan = *d.plan.cutting;
  begin_part(flow, Word::cutting_sheet, 60 * mm);
  put_cutting_facts(flow, plan);
  const std::vector<BlankLabel> labels = blank_labels(d, plan);
  for (const std::size_t board : sawn_boards(plan)) put_board(flow, plan, board, labels);
  if (!plan.cuts.empty()) {
    take_strip(flow, std::min(cutting_gap, free_room(flow).height));
    put_cuts(flow, plan, d);
  }
}

}  // namespace blankwright
