#include "sheet/frame/table.h"

#include <algorithm>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

constexpr Length padding = cell_padding;

struct SetRow {
  const Row* row = nullptr;
  std::vector<Length> widths;
  std::vector<Block> blocks;  ///< of its cells
  Length height;
};

SetRow set_row(const Canvas& canvas, const Row& row, std::span<const Column> columns, Length total) {
  const std::span<const Column> own = row.own_columns.empty() ? columns : std::span{row.own_columns};
  BW_EXPECT(row.cells.size() == own.size());
  SetRow set{&row, column_widths(own, total), {}, row.least_height};
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    set.blocks.push_back(set_block(canvas, row.cells.at(i).phrases, set.widths.at(i) - 2 * padding));
    set.height = std::max(set.height, set.blocks.back().height + 2 * padding);
  }
  return set;
}

void draw_cells(Canvas& canvas, const SetRow& set, const Box& box) {
  std::vector<Path> lines;
  Length x = box.x;
  for (std::size_t i = 0; i < set.blocks.size(); ++i) {
    const Block& block = set.blocks.at(i);
    const Cell& cell = set.row->cells.at(i);
    const Length free = cell.at_top ? 2 * padding : box.height - block.height;
    if (cell.closed) canvas.shade({x, box.y, set.widths.at(i), box.height});
    place_block(canvas, {x + padding, box.y + free / 2}, block);
    x += set.widths.at(i);
    if (i + 1 < set.blocks.size()) lines.push_back({{x, box.y}, {x, box.bottom()}});
  }
  canvas.strokes(std::move(lines), narrow_line);
}

void draw_row(Canvas& canvas, const SetRow& set, const Box& strip) {
  draw_cells(canvas, set, strip);
  canvas.rectangle(strip);
  if (set.row->box > 0 * mm) canvas.rectangle(inside(strip, set.row->box / 2), set.row->box);
}

void put_row(Flow& flow, const SetRow& set) {
  const Box strip = take_strip(flow, set.height);
  Canvas canvas = canvas_of(flow);
  draw_row(canvas, set, strip);
  if (!set.row->leads_to.empty()) canvas.page().links.push_back({strip, set.row->leads_to});
}

void put_head(Flow& flow, const SetRow& head) {
  const Box begin = free_room(flow);
  Canvas canvas = canvas_of(flow);
  canvas.shade({begin.x, begin.y, begin.width, head.height});
  put_row(flow, head);
  const Box room = free_room(flow);
  canvas.line({room.x, room.y}, {room.right(), room.y}, wide_line);
}

/// One behind the last of the rows that have to stand together with the one at `first`, as far as a page has room for
/// them.
std::size_t end_of_group(std::span<const SetRow> rows, std::size_t first, Length room) {
  std::size_t end = first + 1;
  Length height = rows[first].height;
  while (rows[end - 1].row->with_next && end < rows.size() && fits(room, height + rows[end].height)) {
    height += rows[end].height;
    ++end;
  }
  return end;
}

}  // namespace

std::vector<Length> column_widths(std::span<const Column> columns, Length total) {
  Length wished;
  double stretch = 0;
  for (const Column& c : columns) {
    wished += c.width;
    stretch += c.stretch;
  }
  const Length left_over = std::max(0 * mm, total - wished);
  const double shrink = std::min(1.0, total / wished);
  std::vector<Length> widths;
  for (const Column& c : columns) {
    widths.push_back(c.width * shrink + (stretch > 0 ? c.stretch / stretch * left_over : 0 * mm));
  }
  if (stretch <= 0) widths.back() += left_over;
  return widths;
}

void put_table(Flow& flow, const Table& table) {
  const Length total = whole_room(flow).width;
  std::vector<SetRow> rows;
  const SetRow head = set_row(canvas_of(flow), table.head, table.columns, total);
  for (const Row& row : table.rows) rows.push_back(set_row(canvas_of(flow), row, table.columns, total));

  Length wanted_first = head.height;
  for (std::size_t first = 0; first < rows.size();) {
    const std::size_t end = end_of_group(rows, first, whole_room(flow).height - head.height - table.below);
    Length wanted = end == rows.size() ? table.below : 0 * mm;
    for (std::size_t i = first; i < end; ++i) wanted += rows.at(i).height;
    if (!fits(free_room(flow).height, wanted + wanted_first)) {
      next_sheet(flow);
      wanted_first = head.height;
    }
    if (wanted_first > 0 * mm) put_head(flow, head);
    wanted_first = 0 * mm;
    for (; first < end; ++first) put_row(flow, rows.at(first));
  }
}

}  // namespace blankwright
