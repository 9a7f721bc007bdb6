#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <string>

#include "measure/quantity_text.h"
#include "plan/gate/gates.h"
#include "sheet/frame/flowing_text.h"
#include "sheet/mark/fitted.h"
#include "sheet/paper/limits.h"
#include "sheet/sheet/blank_table.h"

namespace blankwright {
namespace {

constexpr Length mass_width = 18 * mm;
constexpr Length size_width = 16 * mm;
constexpr TextStyle note_style{.capitals = 2.5 * mm, .least = 2.5 * mm};

constexpr Length ladder_head = 8 * mm;
constexpr Length ladder_row = 6 * mm;
constexpr Length ladder_gap = 4 * mm;  // between its two halves
constexpr std::array ladder_shares{1.5, 1.0, 1.0, 1.0};

/// The head of a column names the one unit that all its numbers are in.
std::string mass_head(const Dossier& d, Word word) {
  return fmt::format("{} ({})", d.sheet_template.words[word],
                     d.sheet_template.spelling[column_unit<Mass>(d.shop.units.value)]);
}
std::string length_head(const Dossier& d, Word word) {
  return fmt::format("{} ({})", d.sheet_template.words[word],
                     d.sheet_template.spelling[column_unit<Length>(d.shop.units.value)]);
}

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
  const auto add = [&](const LadderRung& rung, bool planned) {
    // As the gate has it: resin in all of the void.
    rows.push_back({rung, ladder_rung(rung.dry, u.dry_volume, whole, resin).wet, planned});
  };
  add({u.dry_mass, u.least_wet, u.least_cured}, true);
  for (const LadderRung& rung : ladder(u, resin, d.shop.units.value)) {
    if (rung.dry != u.dry_mass) add(rung, false);
  }
  std::ranges::sort(rows, {}, [](const LadderRow& row) { return row.rung.dry; });
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

Box text_room(const Box& cell) { return {cell.x + 1 * mm, cell.y, cell.width - 2 * mm, cell.height}; }

void draw_ladder_head(Canvas& canvas, const Dossier& d, const Box& row) {
  constexpr std::array heads{Word::ladder_dry, Word::ladder_wet, Word::ladder_cured, Word::ladder_limit};
  const auto cells = ladder_cells(row);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    canvas.rectangle(cells.at(i));
    fitted(canvas, text_room(cells.at(i)), mass_head(d, heads.at(i)),
           {.capitals = 1.9 * mm, .face = Face::bold, .least = 1.8 * mm});
  }
}

void draw_ladder_row(Canvas& canvas, const Dossier& d, const LadderRow& row, const Box& box) {
  const auto cells = ladder_cells(box);
  const UnitSystem system = d.shop.units.value;
  const Window wet = window(row.rung.wet, row.wet_at_most, system);
  const std::array numbers{number(row.rung.dry, system), wet.least, at_least_number(d, row.rung.cured), wet.most};
  for (std::size_t i = 0; i < cells.size(); ++i) {
    canvas.rectangle(cells.at(i));
    Box room = text_room(cells.at(i));
    if (row.planned && i == 0) {
      const Box words{room.x, room.y, 0.5 * room.width, room.height};
      fitted(canvas, words, d.sheet_template.words[Word::ladder_nominal], {.capitals = 2 * mm, .least = 1.8 * mm});
      room = {words.right() + 0.5 * mm, room.y, room.right() - words.right() - 0.5 * mm, room.height};
    }
    canvas.text_fitted(room, shown(d, numbers.at(i)),
                       {.capitals = 3.2 * mm,
                        .face = row.planned ? Face::bold : Face::regular,
                        .align = Align::right,
                        .least = 1.8 * mm});
  }
  if (row.planned) canvas.rectangle(box, wide_line);
}

/// In two halves beside each other, so that it leaves room for the blanks.
void put_ladder(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const std::vector<LadderRow> rows = ladder_rows(d);
  const std::size_t half = (rows.size() + 1) / 2;
  take_strip(flow, 1 * mm);
  put_text(flow, {w[Word::ladder_title], {.capitals = 3 * mm, .face = Face::bold, .least = 3 * mm}});
  const Box strip = take_strip(flow, ladder_head + static_cast<double>(half) * ladder_row + 1 * mm);
  Canvas canvas = canvas_of(flow);
  const Length width = (strip.width - ladder_gap) / 2;
  for (std::size_t column = 0; column < 2; ++column) {
    Box row{strip.x + static_cast<double>(column) * (width + ladder_gap), strip.y, width, ladder_head};
    draw_ladder_head(canvas, d, row);
    for (std::size_t i = column * half; i < std::min(rows.size(), (column + 1) * half); ++i) {
      row = {row.x, row.bottom(), width, ladder_row};
      draw_ladder_row(canvas, d, rows.at(i), row);
    }
  }
  put_text(flow, {w[Word::ladder_note] + " " + w[Word::ladder_heavy], note_style});
  take_strip(flow, 2 * mm);
}

/// What was measured already, blank by blank; nothing where nothing was.
std::vector<std::string> seen_of(const Dossier& d, const std::function<std::string(const BlankState&)>& what) {
  if (d.seen.empty()) return {};
  std::vector<std::string> out(static_cast<std::size_t>(blank_count(d)));
  for (std::size_t n = 0; n < d.blanks.size(); ++n) {
    if (const auto state = d.seen.find(d.blanks.at(n)); state != d.seen.end()) out.at(n) = what(state->second);
  }
  return out;
}

bool is_held(const Dossier& d, const BlankState& blank) {
  const auto bath = d.seen_baths.find(blank.bath);
  const auto load = d.seen_loads.find(blank.load);
  const auto judged = judge_gates({.blank = blank,
                                   .order = d.order,
                                   .plan = d.plan,
                                   .shop = d.shop,
                                   .bath = bath == d.seen_baths.end() ? BathState{} : bath->second,
                                   .earlier_baths = {},  // none holds a blank that the last one does not
                                   .load = load == d.seen_loads.end() ? LoadState{} : load->second,
                                   .now = d.at});
  return std::ranges::any_of(judged, &Judged::is_wrong);
}

/// Witnesses are told apart where remarks are written, and what holds a blank is said.
std::vector<std::string> all_remarks(const Dossier& d) {
  if (d.plan.witnesses == 0 && d.seen.empty()) return {};
  const WordTable& w = d.sheet_template.words;
  auto remarks = seen_of(d, [&](const BlankState& blank) {
    if (blank.stage == Stage::scrapped) return w[Word::gate_scrapped];
    return is_held(d, blank) ? w[Word::hold] : std::string{};
  });
  remarks.resize(static_cast<std::size_t>(blank_count(d)));
  for (auto n = static_cast<std::size_t>(piece_count(d)); n < remarks.size(); ++n) {
    remarks.at(n) += (remarks.at(n).empty() ? "" : ", ") + w[Word::witness];
  }
  return remarks;
}

std::string weighed_text(const Dossier& d, const std::vector<Weighing>& weighings, std::size_t from_end) {
  if (weighings.size() <= from_end) return {};
  return shown(d, number(weighings.at(weighings.size() - 1 - from_end).net, d.shop.units.value));
}

std::string size_number(const Dossier& d, const std::optional<Length>& size) {
  return size ? shown(d, number(*size, size_printing(d, Fineness::measured))) : std::string{};
}

}  // namespace

/// The table in which every blank's tare, masses and dry sizes are written down, a row a blank, in the shop's units.
/// Where resin is drawn in, the ladder stands above it: by dry mass the least wet and cured mass, and the wet mass
/// that the voids allow at most, the nominal blank among the rungs; and witnesses, the last of the blanks, are
/// marked. In a draft, whose blanks have no IDs, their field is empty.
std::vector<Page> weighing_sheets(const Dossier& d, const FontMetrics& fonts) {
  const WordTable& w = d.sheet_template.words;
  using Seen = std::function<std::string(const BlankState&)>;
  const auto mass = [&](Word word, const Seen& seen, Length width = mass_width) {
    return BlankField{mass_head(d, word), {width}, seen_of(d, seen)};
  };
  const auto size = [&](Word word, const Seen& seen) {
    return BlankField{length_head(d, word), {size_width}, seen_of(d, seen)};
  };
  const Seen nothing = [](const BlankState&) { return std::string{}; };
  const auto dry_size = [&](auto pick) {
    return [&d, pick](const BlankState& b) { return b.dry_size ? size_number(d, pick(*b.dry_size)) : std::string{}; };
  };
  OrderFlow flow = begin_flow(d, fonts, Word::weighing_sheet);
  const bool has_ladder = d.plan.process.uptake.has_value();
  if (has_ladder) {
    put_text(flow, {w[Word::weighing_note], note_style});
    put_ladder(flow);
  }
  put_blank_table(
      flow, has_ladder ? "" : w[Word::weighing_note],
      std::array{mass(Word::tare_head, nothing, 14 * mm),
                 mass(Word::first_weighing, [&](const BlankState& b) { return weighed_text(d, b.dry, 1); }),
                 mass(Word::second_weighing, [&](const BlankState& b) { return weighed_text(d, b.dry, 0); }),
                 size(Word::dry_width, dry_size([](const SizeSeen& s) { return std::optional{s.width}; })),
                 size(Word::dry_height, dry_size([](const SizeSeen& s) { return std::optional{s.depth}; })),
                 size(Word::dry_length, dry_size([](const SizeSeen& s) { return s.length; })),
                 mass(Word::wet_mass_head, [&](const BlankState& b) { return weighed_text(d, b.wet, 0); }),
                 mass(Word::cured_mass_head, [&](const BlankState& b) { return weighed_text(d, b.cured, 0); }),
                 BlankField{w[Word::remarks], {16 * mm, 1}, all_remarks(d)}},
      3.5 * mm);
  return pages_of(std::move(flow));
}

}  // namespace blankwright
