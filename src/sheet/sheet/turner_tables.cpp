#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "plan/figure/figure.h"
#include "sheet/mark/fitted.h"
#include "sheet/sheet/blank_table.h"
#include "sheet/sheet/turner_parts.h"

namespace blankwright {
namespace {

constexpr Length cell_border = 0.8 * mm;
constexpr TextStyle head_style{.size = Lettering::note};
constexpr TextStyle title_style{.size = Lettering::machine, .face = Face::bold, .least = Lettering::hand};

/// Boxes beside each other, by shares of the whole width.
template <std::size_t n>
std::array<Box, n> parted(const Box& box, const std::array<double, n>& shares) {
  double sum = 0;
  for (const double share : shares) sum += share;
  std::array<Box, n> out;
  Length x = box.x;
  for (std::size_t i = 0; i < n; ++i) {
    out.at(i) = {x, box.y, box.width * (shares.at(i) / sum), box.height};
    x = out.at(i).right();
  }
  return out;
}

Box text_room(const Box& cell) { return {cell.x + cell_border, cell.y, cell.width - 2 * cell_border, cell.height}; }

// -- checks
// ----------------------------------------------------------------------------------------------------------

constexpr std::array<int, check_count> check_columns{5, 6, 5, 4, 4};

struct CheckRow {
  Check check;
  std::string words, value, beside;  ///< "Test rod deviates at most, per 100 mm", "0.55 mm"; "(0.625)"
};

CheckRow check_row(const Dossier& d, Check check, std::string words, const Printed& value) {
  const Spelling& spelling = d.sheet_template.spelling;
  if (value.per) words += ", " + per_text(value, spelling);
  return {check, std::move(words), amounts_text(value, spelling), aside_text(value, spelling)};
}

std::array<CheckRow, check_count> check_rows(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const auto row = [&](Check check, std::string words, const Printed& value) {
    return check_row(d, check, std::move(words), value);
  };
  const auto figure = [&](Figure f) { return printed_figure(d, f); };
  const bool glued = d.order.bore.fit.value == BoreFit::glued;
  const bool rounded = is_rounded(d);
  const Printed squareness = at_most(d, d.order.seat.squareness.value, Fineness::measured);
  return {
      row(Check::seat_position, w[rounded ? Word::check_seat_runout : Word::check_seat_position], seat_limit(d)),
      row(Check::rod, w[rounded ? Word::check_rod_rounded : Word::check_rod], figure(Figure::centring_tilt)),
      row(Check::squareness, w[Word::check_squareness] + ", " + w[Word::over_diameter], squareness),
      row(Check::projection, w[Word::check_projection], figure(Figure::stud_projection)),
      row(Check::embedded, w[glued ? Word::check_embedded : Word::check_embedded_tapped],
          figure(Figure::stud_embedded)),
  };
}

constexpr TextStyle beside_value{.size = Lettering::note};

/// A large figure with a small one beside it, on one baseline.
Length check_value_width(const Canvas& canvas, const CheckRow& row, const TextStyle& large) {
  const Length gap = row.beside.empty() ? 0 * mm : 1 * mm;
  return canvas.width_of(row.value, large) + gap + canvas.width_of(row.beside, beside_value);
}

void draw_check_value(Canvas& canvas, Spot at, const CheckRow& row, const TextStyle& large) {
  canvas.text(at, row.value, large);
  canvas.text({at.x + canvas.width_of(row.value, large) + 1 * mm, at.y}, row.beside, beside_value);
}

/// A title with words beside it that say how to take what is below.
void draw_table_title(Canvas& canvas, const Box& box, const std::string& title, const std::string& beside) {
  const Length tails = 0.8 * mm;  // of its letters
  const Box left{box.x, box.y, std::min(canvas.width_of(title, title_style), box.width / 2), box.height - tails};
  fitted(canvas, left, title, title_style);
  const Length x = left.right() + 4 * mm;
  fitted(canvas, {x, box.y, box.right() - x, box.height}, beside, {});
}

// -- stations
// --------------------------------------------------------------------------------------------------------

constexpr Length least_row = 3.8 * mm;
constexpr std::size_t heads = 5;

/// In columns of the grid.
using StationShares = std::array<double, heads>;
constexpr StationShares two_tables{1.5, 2.5, 3, 2.5, 2.5}, three_tables{1, 2, 2, 1.5, 1.5};

const StationShares& station_shares(const StationTable& table) {
  return table.columns == 2 ? two_tables : three_tables;
}

struct StationTexts {
  std::array<std::string, heads> columns;
  std::string instead;  ///< of the limits in the last two, or nothing
};

/// From the seat is set by a rule, diameters by a caliper.
StationTexts station_texts(const Dossier& d, const SheetStation& s) {
  const Printing how = station_printing(d);
  const bool metric = d.shop.units.value == UnitSystem::metric;
  const Printing by_rule = metric ? how : size_printing(d, Fineness::sawn);
  StationTexts out;
  out.columns = {fmt::format("{}", s.number), shown(d, rule_number(s.along, by_rule)),
                 shown(d, number(s.diameter, how))};
  if (s.wood) {
    const auto& inside = d.order.ferrule->inside_diameter;
    out.columns[2] = inside ? shown(d, number(inside->value, how)) : "–";
    out.instead = d.sheet_template.words[Word::ferrule_wood_fitted];
    return out;
  }
  const Length tolerance = d.order.handle.tolerance.value;
  const Window limits = window(s.diameter - tolerance, s.diameter + tolerance, d.shop.units.value, how.fineness);
  out.columns[3] = shown(d, limits.least);
  out.columns[4] = shown(d, limits.most);
  return out;
}

void draw_station_head(Canvas& canvas, const Dossier& d, const Box& box, const StationShares& shares) {
  constexpr std::array words{Word::number_short, Word::from_seat, Word::diameter, Word::at_least, Word::at_most};
  const auto cells = parted(box, shares);
  for (std::size_t i = 0; i < words.size(); ++i) {
    canvas.shade(cells.at(i));
    canvas.rectangle(cells.at(i));
    fitted(canvas, text_room(cells.at(i)), d.sheet_template.words[words.at(i)], head_style);
  }
}

/// Numbers are bold; the long ones of a crowded table are set in the narrow face.
TextStyle column_style(const Canvas& canvas, std::size_t column, const std::string& words, Length room,
                       Lettering size) {
  if (column > 0) return {.size = size, .align = Align::right};
  const TextStyle bold{.size = size, .face = Face::bold};
  return canvas.width_of(words, bold) <= room ? bold : TextStyle{.size = size, .face = Face::narrow};
}

void draw_station(Canvas& canvas, const Dossier& d, const SheetStation& s, const Box& box,
                  const StationShares& shares, Lettering size) {
  const auto cells = parted(box, shares);
  const StationTexts texts = station_texts(d, s);
  const Box limits{cells[3].x, box.y, cells[4].right() - cells[3].x, box.height};
  for (std::size_t i = 0; i < (texts.instead.empty() ? cells.size() : 3); ++i) canvas.rectangle(cells.at(i));
  for (std::size_t i = 0; i < texts.columns.size(); ++i) {
    const Box room = text_room(cells.at(i));
    const TextStyle style = column_style(canvas, i, texts.columns.at(i), room.width, size);
    canvas.text({i == 0 ? room.x : room.right(), room.y + room.height / 2 + canvas.capitals(size) / 2},
                texts.columns.at(i), style);
  }
  if (texts.instead.empty()) return;
  canvas.rectangle(limits);
  fitted(canvas, text_room(limits), texts.instead, {});
}

/// "6, 7: wood under the ferrule; its outside Ø20.0 mm. "; empty without one.
std::string under_ferrule_note(const Dossier& d, std::span<const SheetStation> stations) {
  const std::string numbers = numbers_under_ferrule(stations);
  if (numbers.empty()) return {};
  return fmt::format(
      "{}: {} Ø{}. ", numbers, d.sheet_template.words[Word::ferrule_rows],
      shown(d, printed(d.order.ferrule->outside_diameter.value, size_printing(d, Fineness::measured))));
}

std::string stations_note(const Dossier& d, std::span<const SheetStation> stations, const StationTable& table) {
  const WordTable& w = d.sheet_template.words;
  const bool smooth = d.order.handle.form.value == FormLine::smooth;
  const std::size_t all = sheet_stations(d).size();
  std::string out = w[smooth ? Word::form_smooth : Word::form_straight];
  if (static_cast<std::size_t>(table.shown) < all) {
    out = fmt::format("{} / {} {}; ", table.shown, all, w[Word::stations_left_out]) + out;
  }
  return under_ferrule_note(d, stations) + out;
}

}  // namespace

Lettering station_lettering(const Canvas& canvas, const Dossier& d, std::span<const SheetStation> stations,
                            const StationTable& table, Length width) {
  const Box line{{}, {}, width / table.columns, table.row};
  const auto cells = parted(line, station_shares(table));
  const auto fits_at = [&](Lettering size) {
    if (1.4 * canvas.capitals(size) > line.height) return false;
    for (const SheetStation& s : stations) {
      const auto texts = station_texts(d, s).columns;
      for (std::size_t i = 0; i < texts.size(); ++i) {
        const Length room = text_room(cells.at(i)).width;
        if (canvas.width_of(texts.at(i), column_style(canvas, i, texts.at(i), room, size)) > room) return false;
      }
    }
    return true;
  };
  Lettering size = Lettering::machine;
  while (size > Lettering::note && !fits_at(size)) size = smaller(size);
  return size;
}

void draw_checks(Canvas& canvas, const Dossier& d, const Box& box) {
  const WordTable& w = d.sheet_template.words;
  const double large = enlarged(canvas);
  const Length head = large * table_head;
  draw_table_title(canvas, {box.x, box.y, box.width, head}, w[Word::checks_title], w[Word::checks_note]);
  const auto rows = check_rows(d);
  const auto width_of = [&](const CheckRow& row) {
    return check_columns.at(static_cast<std::size_t>(row.check) - 1) * box.width / grid_columns;
  };
  TextStyle value{.size = Lettering::figure, .face = Face::bold};
  Canvas usual = canvas.not_enlarged();
  const auto all_fit = [&](const Canvas& on) {
    return std::ranges::all_of(rows, [&](const CheckRow& row) {
      return check_value_width(on, row, value) <= width_of(row) - 2 * cell_border;
    });
  };
  while (value.size > Lettering::note && !all_fit(canvas) && !all_fit(usual)) value.size = smaller(value.size);
  Canvas& on = all_fit(canvas) ? canvas : usual;
  Box cell{box.x, box.y + head, {}, box.height - head};
  for (const CheckRow& row : rows) {
    cell.width = width_of(row);
    canvas.rectangle(cell);
    const TextStyle number{.size = Lettering::machine, .face = Face::bold};
    canvas.text({cell.x + cell_border, cell.y + 1 * mm + canvas.capitals(number.size)},
                fmt::format("{}", static_cast<int>(row.check)), number);
    fitted(canvas, {cell.x + 5 * mm, cell.y + 0.5 * mm, cell.width - 5.5 * mm, cell.height - large * 7.6 * mm},
           row.words, {}, Vertical::top);
    draw_check_value(on, {cell.x + cell_border, cell.bottom() - large * 1.6 * mm}, row, value);
    cell.x = cell.right();
  }
}

StationTable station_table(const Canvas& canvas, int stations, int columns, Length row, Length most) {
  const double large = enlarged(canvas);
  const Length head = large * table_head, room = most - 2 * head;
  const int rows = (stations + columns - 1) / columns;
  if (rows * large * row <= room)
    return {.columns = columns, .rows = rows, .head = head, .row = large * row, .shown = stations};
  const Length least = large * least_row;
  const int small_rows = std::max(1, std::min((stations + 2) / 3, static_cast<int>(room / least)));
  return {.columns = 3, .rows = small_rows, .head = head, .row = least, .shown = std::min(stations, 3 * small_rows)};
}

void draw_stations(Canvas& canvas, const Dossier& d, std::span<const SheetStation> stations,
                   const StationTable& table, const Box& box) {
  draw_table_title(canvas, {box.x, box.y, box.width, table.head}, length_head(d, Word::stations_title),
                   stations_note(d, stations, table));
  const Length width = box.width / table.columns;
  const StationShares& shares = station_shares(table);
  const Lettering size = station_lettering(canvas, d, stations, table, box.width);
  for (int column = 0; column * table.rows < table.shown; ++column) {
    Box line{box.x + column * width, box.y + table.head, width, table.head};
    const Spot begin{line.x, line.y};
    draw_station_head(canvas, d, line, shares);
    line = {line.x, line.bottom(), width, table.row};
    for (int i = column * table.rows; i < std::min((column + 1) * table.rows, table.shown); ++i) {
      draw_station(canvas, d, stations[static_cast<std::size_t>(i)], line, shares, size);
      line.y = line.bottom();
    }
    if (column > 0) canvas.line(begin, {line.x, line.y}, wide_line);
  }
}

}  // namespace blankwright
