#include "sheet/sheet/blank_table.h"

#include <fmt/format.h>

#include "sheet/paper/limits.h"

namespace blankwright {
namespace {

Row head_row(const Dossier& d, const std::vector<BlankField>& fields) {
  const TextStyle style{.capitals = 2 * mm, .face = Face::bold, .align = Align::centre, .least = 1.8 * mm};
  const WordTable& w = d.sheet_template.words;
  Row row;
  row.cells = {Cell{{{w[Word::number_short], style}}}, Cell{{{w[Word::blank_id], style}}}};
  for (const BlankField& field : fields) row.cells.push_back({{{field.head, style}}});
  row.least_height = 8 * mm;
  return row;
}

Row blank_row(const Dossier& d, std::size_t n, const BlankTable& blanks) {
  const TextStyle number{.capitals = 2.5 * mm, .align = Align::centre, .least = 2 * mm};
  const TextStyle id{.capitals = blanks.id_capitals, .face = Face::bold, .align = Align::centre, .least = 3 * mm};
  const TextStyle filled{.capitals = 2.5 * mm, .least = 2 * mm};
  Row row;
  row.cells = {Cell{{{fmt::format("{}", n + 1), number}}}, Cell{{{d.draft ? "" : d.blanks.at(n).shown(), id}}}};
  for (const BlankField& field : blanks.fields) {
    row.cells.push_back(field.filled.empty() ? Cell{} : Cell{{{field.filled.at(n), filled}}});
  }
  row.least_height = d.sheet_template.write_in_row.value;
  return row;
}

}  // namespace

std::string mass_head(const Dossier& d, Word word) {
  return fmt::format("{} ({})", d.sheet_template.words[word],
                     d.sheet_template.spelling[column_unit<Mass>(d.shop.units.value)]);
}
std::string length_head(const Dossier& d, Word word) {
  return fmt::format("{} ({})", d.sheet_template.words[word],
                     d.sheet_template.spelling[column_unit<Length>(d.shop.units.value)]);
}

void put_blank_table(OrderFlow& flow, const BlankTable& blanks) {
  const Dossier& d = flow.dossier;
  const Canvas canvas = canvas_of(flow);
  Table table;
  // Seven symbols and a hyphen, about as wide as high, and the cell's borders.
  table.columns = {{7 * mm}, {8 * canvas.lettering() * blanks.id_capitals + 4.5 * mm}};
  for (const BlankField& field : blanks.fields) table.columns.push_back(field.column);
  table.head = head_row(d, blanks.fields);
  for (int n = 0; n < blanks.count; ++n) {
    table.rows.push_back(blank_row(d, static_cast<std::size_t>(n), blanks));
  }
  put_table(flow, table);
}

}  // namespace blankwright
