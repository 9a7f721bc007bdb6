#include "sheet/sheet/blank_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sheet/paper/limits.h"

namespace blankwright {
namespace {

constexpr Length head_height = 8 * mm;

/// Bold, or narrow where a word would have to be cut.
TextStyle field_head_style(const Canvas& canvas, const std::string& words, Length width) {
  TextStyle style{.size = Lettering::note, .face = Face::bold, .align = Align::centre};
  if (canvas.widest_word(words, style) > width - 2 * cell_padding) style.face = Face::narrow;
  return style;
}

Row head_row(const Canvas& canvas, const Dossier& d, const std::vector<BlankField>& fields,
             const std::vector<Length>& widths) {
  const WordTable& w = d.sheet_template.words;
  Row row;
  std::vector<std::string> heads{w[Word::number_short], w[Word::blank_id]};
  for (const BlankField& field : fields) heads.push_back(field.head);
  for (std::size_t i = 0; i < heads.size(); ++i)
    row.cells.push_back({{{heads.at(i), field_head_style(canvas, heads.at(i), widths.at(i))}}});
  row.least_height = head_height;
  return row;
}

Row blank_row(const Dossier& d, std::size_t n, const BlankTable& blanks) {
  const TextStyle number{.size = Lettering::hand, .align = Align::centre};
  const TextStyle id{.size = blanks.id_size, .face = Face::bold, .align = Align::centre, .least = Lettering::machine};
  const TextStyle filled{.align = Align::right};
  Row row;
  row.cells = {Cell{{{fmt::format("{}", n + 1), number}}}, Cell{{{d.draft ? "" : d.blanks.at(n).shown(), id}}}};
  for (const BlankField& field : blanks.fields) {
    row.cells.push_back(field.filled.empty() ? Cell{} : Cell{{{field.filled.at(n), filled}}});
  }
  row.least_height = d.sheet_template.write_in_row.value;
  return row;
}

/// So many stand together at the end that they fill a third of a page, which is begun for no less.
int last_rows(const OrderFlow& flow) {
  const Length rows = whole_room(flow).height / 3 - head_height;
  return static_cast<int>(std::ceil(rows / flow.dossier.sheet_template.write_in_row.value)) + 1;
}

/// Of the widest ID; in a draft, which has none, of a usual one.
Length id_width(const Canvas& canvas, const Dossier& d, const BlankTable& blanks) {
  const TextStyle style{.size = blanks.id_size, .face = Face::bold};
  Length widest = canvas.width_of("NG7-32GX", style);
  for (const BlankId& id : d.blanks) widest = std::max(widest, canvas.width_of(id.shown(), style));
  return widest;
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
  table.columns = {{8 * mm}, {id_width(canvas, d, blanks) + 2.5 * mm}};
  // Where room is short the fields give way, and no ID is broken.
  const Length room = whole_room(flow).width - table.columns.at(0).width - table.columns.at(1).width;
  Length wished;
  for (const BlankField& field : blanks.fields) wished += field.column.width;
  const double shrink = std::min(1.0, room / wished);
  for (const BlankField& field : blanks.fields) {
    table.columns.push_back({shrink * field.column.width, field.column.stretch});
  }
  table.head = head_row(canvas, d, blanks.fields, column_widths(table.columns, whole_room(flow).width));
  const int last = last_rows(flow);
  for (int n = 0; n < blanks.count; ++n) {
    table.rows.push_back(blank_row(d, static_cast<std::size_t>(n), blanks));
    table.rows.back().with_next = n + 1 < blanks.count && n + last >= blanks.count;
  }
  put_table(flow, table);
}

bool stands_together(const OrderFlow& flow, int count) { return count <= last_rows(flow); }

}  // namespace blankwright
