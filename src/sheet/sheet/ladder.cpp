#include "sheet/sheet/ladder.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "sheet/frame/flowing_text.h"
#include "sheet/mark/fitted.h"
#include "sheet/paper/limits.h"
#include "sheet/sheet/blank_table.h"
#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

constexpr double ladder_head = 4;  // two lines, in heights of their capitals
constexpr Length ladder_row = 5 * mm;
constexpr Length ladder_gap = 4 * mm;  // between its parts
constexpr std::size_t ladder_parts = 3;
constexpr std::array ladder_shares{1.92, 0.98, 1.08, 0.98};

/// A row of the ladder.
struct LadderRow {
  LadderRung rung;
  Mass wet_at_most;
  bool planned = false;
};

/// The rungs, and the blank as planned among them.
std::vector<LadderRow> ladder_rows(const Dossier& d) {
  const Uptake& u = *d.plan.process.uptake;
  const ResinFacts& resin = *d.plan.process.resin;
  std::vector<LadderRow> rows;
  const auto row = [&](const LadderRung& rung) {
    // As the gate has it: resin in all of the void.
    return LadderRow{rung, ladder_rung(rung.dry, u.dry_volume, whole, resin).wet};
  };
  rows.push_back(row({u.dry_mass, u.least_wet, u.least_cured}));
  rows.back().planned = true;
  for (const LadderRung& rung : ladder(u, resin, d.shop.units.value)) {
    if (rung.dry != u.dry_mass) rows.push_back(row(rung));
  }
  std::ranges::sort(rows, {}, [](const LadderRow& of) { return of.rung.dry; });
  return rows;
}

std::array<Box, ladder_shares.size()> ladder_cells(const Box& row) {
  double sum = 0;
  for (const double share : ladder_shares) sum += share;
  std::array<Box, ladder_shares.size()> cells;
  Length x = row.x;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    cells.at(i) = {x, row.y, ladder_shares.at(i) / sum * row.width, row.height};
    x = cells.at(i).right();
  }
  return cells;
}

Box ladder_room(const Box& cell) { return {cell.x + 1 * mm, cell.y, cell.width - 2 * mm, cell.height}; }

void draw_ladder_head(Canvas& canvas, const Dossier& d, const Box& row) {
  constexpr std::array heads{Word::ladder_dry, Word::ladder_wet, Word::ladder_cured, Word::ladder_limit};
  const auto cells = ladder_cells(row);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    canvas.shade(cells.at(i));
    canvas.rectangle(cells.at(i));
    fitted(canvas, ladder_room(cells.at(i)), i == 0 ? mass_head(d, heads.at(i)) : d.sheet_template.words[heads.at(i)],
           {.size = Lettering::note, .face = Face::bold});
  }
}

void draw_ladder_row(Canvas& canvas, const Dossier& d, const LadderRow& row, const Box& box) {
  const auto cells = ladder_cells(box);
  const UnitSystem system = d.shop.units.value;
  const Window wet = window(row.rung.wet, row.wet_at_most, system);
  const std::array numbers{number(row.rung.dry, system), wet.least, at_least_number(d, row.rung.cured), wet.most};
  for (std::size_t i = 0; i < cells.size(); ++i) {
    canvas.rectangle(cells.at(i));
    const Box room = ladder_room(cells.at(i));
    const std::string figure = shown(d, numbers.at(i));
    const TextStyle style{.size = Lettering::hand,
                          .face = row.planned ? Face::bold : Face::regular,
                          .align = Align::right,
                          .least = Lettering::note};
    canvas.text_fitted(room, figure, style);
    if (!row.planned || i > 0) continue;
    // The figure comes first: where it leaves too little for the word, weight and frame tell the row.
    const std::string& word = d.sheet_template.words[Word::ladder_nominal];
    const Box beside{room.x, room.y, room.width - canvas.width_of(figure, style) - 0.6 * mm, room.height};
    const TextStyle small{.size = Lettering::note};
    if (canvas.width_of(word, small) <= beside.width) fitted(canvas, beside, word, small);
  }
  if (row.planned) canvas.rectangle(box, wide_line);
}

}  // namespace

void put_ladder(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const std::vector<LadderRow> rows = ladder_rows(d);
  const std::size_t in_part = (rows.size() + ladder_parts - 1) / ladder_parts;
  take_strip(flow, std::min(1 * mm, free_room(flow).height));
  put_text(flow, {mass_head(d, Word::ladder_title),
                  {.size = Lettering::machine, .face = Face::bold, .least = Lettering::machine}});
  const Length head = ladder_head * canvas_of(flow).capitals(Lettering::note);
  const Box strip = next_strip(flow, head + static_cast<double>(in_part) * ladder_row + 1 * mm);
  Canvas canvas = canvas_of(flow);
  const Length width = (strip.width - (ladder_parts - 1) * ladder_gap) / ladder_parts;
  for (std::size_t column = 0; column < ladder_parts; ++column) {
    Box row{strip.x + static_cast<double>(column) * (width + ladder_gap), strip.y, width, head};
    draw_ladder_head(canvas, d, row);
    for (std::size_t i = column * in_part; i < std::min(rows.size(), (column + 1) * in_part); ++i) {
      row = {row.x, row.bottom(), width, ladder_row};
      draw_ladder_row(canvas, d, rows.at(i), row);
    }
  }
  put_text(flow, {w[Word::ladder_note] + " " + w[Word::ladder_heavy], hand_note});
  take_strip(flow, std::min(2 * mm, free_room(flow).height));
}

}  // namespace blankwright
