#pragma once

#include <span>
#include <string>
#include <vector>

#include "sheet/frame/flow.h"
#include "sheet/mark/block.h"

namespace blankwright {

inline constexpr Length cell_padding = 1 * mm;  ///< round the words of a cell
inline constexpr const char* no_value = "–";    ///< where a figure would stand, and there is none
inline constexpr TextStyle column_head{.size = Lettering::note, .face = Face::bold};

struct Column {
  Length width;        ///< as wished, > 0
  double stretch = 0;  ///< its part of what the wished widths leave over
};

/// Widths that together fill `total`: as wished, with what is left over shared by stretch, or all shrunk alike where
/// the wishes are too wide. Without any stretch what is left over goes to the last column.
std::vector<Length> column_widths(std::span<const Column> columns, Length total);

struct Cell {
  std::vector<Phrase> phrases;  ///< one below the other; none: a field to write in
  bool at_top = false;          ///< they caption the field below them, instead of standing in the middle
  bool closed = false;          ///< a field that nobody fills in: grey
};

struct Row {
  std::vector<Cell> cells;
  Length least_height;
  std::vector<Column> own_columns = {};  ///< where it does not follow the table's
  Length box = 0 * mm;                   ///< width of a line round it, if it is to stand out
  bool with_next = false;                ///< stays on one page with the row below, where one has room for both
  std::string leads_to = {};             ///< label of a page that a click on it opens; empty: none
};

/// A table. It may go on over several pages, each under the same head; a row is never cut.
struct Table {
  std::vector<Column> columns;
  Row head;
  std::vector<Row> rows;
  Length below = 0 * mm;  ///< room that has to be left under its last row, on the same page
};

/// Measures the rows, then places them from what is free on, on as many pages as it takes. Cells grow with their
/// text.
void put_table(Flow& flow, const Table& table);

}  // namespace blankwright
