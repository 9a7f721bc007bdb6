#include "sheet/sheet/blank_table.h"

#include <fmt/format.h>

#include <array>

namespace blankwright {
namespace {

Row head_row(const Dossier& d, std::span<const BlankField> fields) {
  const TextStyle style{.capitals = 1.9 * mm, .face = Face::bold, .align = Align::centre, .least = 1.9 * mm};
  const WordTable& w = d.sheet_template.words;
  Row row;
  row.cells = {Cell{{{w[Word::number_short], style}}}, Cell{{{w[Word::blank_id], style}}}};
  for (const BlankField& field : fields) row.cells.push_back({{{field.head, style}}});
  row.least_height = 10 * mm;
  return row;
}

Row blank_row(const Dossier& d, std::size_t n, std::span<const BlankField> fields, Length id_capitals) {
  const TextStyle number{.capitals = 2.5 * mm, .align = Align::centre};
  const TextStyle id{
      .capitals = id_capitals, .face = Face::bold, .align = Align::centre, .least = id_capitals - 0.5 * mm};
  const TextStyle filled{.capitals = 3 * mm, .least = 2 * mm};
  Row row;
  row.cells = {Cell{{{fmt::format("{}", n + 1), number}}}, Cell{{{d.draft ? "" : d.blanks.at(n).shown(), id}}}};
  for (const BlankField& field : fields) {
    row.cells.push_back(field.filled.empty() ? Cell{} : Cell{{{field.filled.at(n), filled}}});
  }
  row.least_height = d.sheet_template.write_in_row.value;
  return row;
}

}  // namespace

void put_blank_table(OrderFlow& flow, const std::string& note, std::span<const BlankField> fields,
                     Length id_capitals) {
  const Dossier& d = flow.dossier;
  const std::array phrase{Phrase{note, {.capitals = 2.5 * mm, .least = 2.2 * mm}}};
  const Block block = set_block(canvas_of(flow), phrase, whole_room(flow).width);
  const Box strip = take_strip(flow, block.height + 1.5 * mm);
  Canvas canvas = canvas_of(flow);
  place_block(canvas, {strip.x, strip.y}, block);

  Table table;
  const Length id_width = 8 * canvas.lettering() * id_capitals;  // seven symbols and a hyphen, about as wide as high
  table.columns = {{8 * mm}, {id_width}};
  for (const BlankField& field : fields) table.columns.push_back(field.column);
  table.head = head_row(d, fields);
  const auto count = static_cast<std::size_t>(blank_count(d));
  for (std::size_t n = 0; n < count; ++n) table.rows.push_back(blank_row(d, n, fields, id_capitals));
  put_table(flow, table);
}

}  // namespace blankwright
