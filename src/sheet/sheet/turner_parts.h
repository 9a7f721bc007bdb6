#pragma once

#include <algorithm>
#include <span>
#include <string>
#include <vector>

#include "sheet/mark/block.h"
#include "sheet/paper/turner_facts.h"

namespace blankwright {

// The parts of the turner's sheet round its drawing. Each fills the box that it is given; heights are told before.

inline constexpr Length title_block_height = 11 * mm;
inline constexpr Length settings_height = 25 * mm;
inline constexpr Length checks_height = 28 * mm;
inline constexpr Length table_head = 5.6 * mm;
/// By what all these, and rows, are higher where the template's lettering is larger than usual.
inline double enlarged(const Canvas& canvas) {
  return std::max(1.0, canvas.capitals(Lettering::note) / nominal(Lettering::note));
}

/// Cells of ISO 7200, those of the head of the sheet left out: owner, drawing, revision, issued, created by, approved
/// by, scale, units, general tolerance.
void draw_title_block(Canvas& canvas, const Dossier& dossier, const Box& box, std::string_view scale);

/// What tools are set to and the blank is checked by, in large figures.
void draw_settings(Canvas& canvas, const Dossier& dossier, const Box& box);

/// The limits that hold before turning, beside each other: number, what it is, how much. What is found is written on
/// the back.
void draw_checks(Canvas& canvas, const Dossier& dossier, const Box& box);

/// How the stations stand in their table.
struct StationTable {
  int columns = 2;  ///< stations beside each other
  int rows = 0;
  Length head, row;  ///< heights
  int shown = 0;     ///< stations
  Length height() const { return 2 * head + rows * row; }
};
/// `columns` stations beside each other, if rows of that height (at usual lettering) find room in `most`; else
/// smaller ones; else fewer stations.
StationTable station_table(const Canvas& canvas, int stations, int columns, Length row, Length most);
void draw_stations(Canvas& canvas, const Dossier& dossier, std::span<const SheetStation> stations,
                   const StationTable& table, const Box& box);

/// The columns of the grid on which the strips of the sheet have their edges, and the cells of its head.
inline constexpr int grid_columns = 24;

/// One size for all figures of the table, on a sheet so wide.
Lettering station_lettering(const Canvas& canvas, const Dossier& dossier, std::span<const SheetStation> stations,
                            const StationTable& table, Length width);

}  // namespace blankwright
