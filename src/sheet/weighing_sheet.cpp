#include "sheet/weighing_sheet.h"

#include <fmt/format.h>

#include <array>
#include <string>

#include "sheet/table.h"

namespace blankwright {
namespace {

constexpr Length row_height = 12 * mm;  // what somebody writes in needs 8 at least

enum class Unit { none, mass, length };

std::string unit_symbol(Unit unit, UnitSystem system) {
  switch (unit) {
    case Unit::none:
      break;
    case Unit::mass:
      return system == UnitSystem::metric ? "g" : "oz";
    case Unit::length:
      return system == UnitSystem::metric ? "mm" : "in";
  }
  return {};
}

struct WeighingColumn {
  Word head;
  Unit unit;
  Column column;
};

constexpr Length field_width = 16 * mm;  // eight of them beside the ID on a page held upright

const std::array weighing_columns{
    WeighingColumn{Word::number_short, Unit::none, {8 * mm}},
    WeighingColumn{Word::blank_id, Unit::none, {31 * mm}},
    WeighingColumn{Word::tare_head, Unit::mass, {13 * mm}},
    WeighingColumn{Word::first_weighing, Unit::mass, {field_width}},
    WeighingColumn{Word::second_weighing, Unit::mass, {field_width}},
    WeighingColumn{Word::dry_width, Unit::length, {field_width}},
    WeighingColumn{Word::dry_height, Unit::length, {field_width}},
    WeighingColumn{Word::dry_length, Unit::length, {field_width}},
    WeighingColumn{Word::wet_mass_head, Unit::mass, {field_width}},
    WeighingColumn{Word::cured_mass_head, Unit::mass, {field_width}},
    WeighingColumn{Word::remarks, Unit::none, {20 * mm, 1}},
};

Row head_row(const Dossier& d) {
  const TextStyle style{.capitals = 1.9 * mm, .face = Face::bold, .align = Align::centre, .least = 1.9 * mm};
  Row row;
  for (const WeighingColumn& c : weighing_columns) {
    const std::string& head = d.sheet_template.words[c.head];
    const std::string unit = unit_symbol(c.unit, d.shop.units.value);
    row.cells.push_back({{{unit.empty() ? head : fmt::format("{} ({})", head, unit), style}}});
  }
  row.least_height = 10 * mm;
  return row;
}

Row blank_row(const Dossier& d, std::size_t n) {
  const TextStyle number{.capitals = 2.5 * mm, .align = Align::centre};
  const TextStyle id{.capitals = 4 * mm, .face = Face::bold, .align = Align::centre, .least = 3.5 * mm};
  Row row;
  row.cells = {Cell{{{fmt::format("{}", n + 1), number}}}, Cell{{{d.draft ? "" : d.blanks.at(n).shown(), id}}}};
  row.cells.resize(weighing_columns.size());
  row.least_height = row_height;
  return row;
}

}  // namespace

std::vector<Page> weighing_sheets(const Dossier& d, const FontMetrics& fonts) {
  Flow flow = begin_flow(d, fonts, Word::weighing_sheet);
  const std::array note{
      Phrase{d.sheet_template.words[Word::weighing_note], {.capitals = 2.5 * mm, .least = 2.2 * mm}}};
  const Block block = set_block(canvas_of(flow), note, whole_room(flow).width);
  const Box strip = take_strip(flow, block.height + 1.5 * mm);
  Canvas canvas = canvas_of(flow);
  place_block(canvas, {strip.x, strip.y}, block);

  Table table;
  for (const WeighingColumn& c : weighing_columns) table.columns.push_back(c.column);
  table.head = head_row(d);
  const auto count = static_cast<std::size_t>(blank_count(d));
  for (std::size_t n = 0; n < count; ++n) table.rows.push_back(blank_row(d, n));
  put_table(flow, table);
  return pages_of(std::move(flow));
}

}  // namespace blankwright
