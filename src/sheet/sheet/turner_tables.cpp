#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "plan/figure/figure.h"
#include "sheet/mark/fitted.h"
#include "sheet/sheet/turner_parts.h"

namespace blankwright {
namespace {

constexpr Length border = 0.8 * mm;
constexpr TextStyle head_style{.capitals = 2 * mm, .least = 1 * mm};
constexpr TextStyle title_style{.capitals = 3 * mm, .face = Face::bold, .least = 1.8 * mm};

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

Box text_room(const Box& cell) { return {cell.x + border, cell.y, cell.width - 2 * border, cell.height}; }

void draw_cells(Canvas& canvas, std::span<const Box> cells) {
  for (const Box& cell : cells) canvas.rectangle(cell);
}

// -- checks
// ----------------------------------------------------------------------------------------------------------

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

/// A large figure with a small one beside it, on one line as wide as the box at most.
void draw_value(Canvas& canvas, const Box& box, const CheckRow& row) {
  TextStyle large{.capitals = 5 * mm, .face = Face::bold};
  TextStyle small{.capitals = 2.2 * mm};
  const Length gap = row.beside.empty() ? 0 * mm : 1 * mm;
  const Length wanted = canvas.width_of(row.value, large) + gap + canvas.width_of(row.beside, small);
  const double shrink = std::min({1.0, box.width / wanted, (box.height - 2 * mm) / large.capitals});
  large.capitals = shrink * large.capitals;
  small.capitals = shrink * small.capitals;
  const Length baseline = box.y + box.height / 2 + large.capitals / 2;
  canvas.text({box.x, baseline}, row.value, large);
  canvas.text({box.x + canvas.width_of(row.value, large) + shrink * gap, baseline}, row.beside, small);
}

constexpr std::array check_shares{7.0, 41.0, 40.0, 28.0, 18.0};

// -- stations
// --------------------------------------------------------------------------------------------------------

constexpr Length least_row = 3.6 * mm;
constexpr Length most_row_without_results = 6 * mm;

/// From the seat is set by a rule: in inch shops the fraction with its decimal, below it where the row is high
/// enough and else behind it.
bool in_two_lines(const Dossier& d, Length row) { return d.shop.units.value == UnitSystem::inches && row >= 7 * mm; }

std::array<double, 6> station_shares(const Dossier& d, const StationTable& table) {
  if (table.results) return {8, 17, 16, 16, 16, 20};
  const bool metric = d.shop.units.value == UnitSystem::metric;
  return {6.5, metric ? 14.0 : 28.0, 13, 13, 13, 0.001};
}

struct StationTexts {
  std::array<std::string, 5> columns;
  std::string decimal;  ///< under the second one, or nothing
  std::string instead;  ///< of the limits in the last two, or nothing
};

StationTexts station_texts(const Dossier& d, const SheetStation& s, Length row) {
  const UnitSystem system = d.shop.units.value;
  const Printing how = station_printing(d);
  const std::string decimal = shown(d, number(s.along, how));
  const std::string fraction = shown(d, rule_number(s.along, size_printing(d, Fineness::sawn)));
  const bool as_fraction = system == UnitSystem::inches && fraction != decimal;
  const bool apart = as_fraction && in_two_lines(d, row);
  StationTexts out;
  out.columns = {fmt::format("{}", s.number), decimal, shown(d, number(s.diameter, how))};
  if (as_fraction) out.columns[1] = apart ? fraction : fmt::format("{} ({})", fraction, decimal);
  if (apart) out.decimal = decimal;
  if (is_under_ferrule(d.order, s)) {
    const auto& inside = d.order.ferrule->inside_diameter;
    out.columns[2] = inside ? shown(d, number(inside->value, how)) : "–";
    out.instead = d.sheet_template.words[Word::ferrule_wood_fitted];
    return out;
  }
  const Length tolerance = d.order.handle.tolerance.value;
  const Window limits = window(s.diameter - tolerance, s.diameter + tolerance, system, how.fineness);
  out.columns[3] = shown(d, limits.least);
  out.columns[4] = shown(d, limits.most);
  return out;
}

void draw_station_head(Canvas& canvas, const Dossier& d, const StationTable& table, const Box& box) {
  constexpr std::array heads{Word::number_short, Word::from_seat, Word::diameter,
                             Word::at_least,     Word::at_most,   Word::result};
  const auto cells = parted(box, station_shares(d, table));
  const std::size_t shown = table.results ? heads.size() : heads.size() - 1;
  TextStyle style = head_style;
  for (std::size_t i = 0; i < shown; ++i) {
    const Length width = canvas.width_of(d.sheet_template.words[heads.at(i)], style);
    style.capitals = std::max(style.least, std::min(1.0, text_room(cells.at(i)).width / width) * style.capitals);
  }
  for (std::size_t i = 0; i < shown; ++i) {
    canvas.rectangle(cells.at(i));
    fitted(canvas, text_room(cells.at(i)), d.sheet_template.words[heads.at(i)], style);
  }
}

/// Sizes of the figures: of the lengths, which are long in inches, and of all others.
struct StationSizes {
  Length along, others;
};
StationSizes station_sizes(const Canvas& canvas, const Dossier& d, std::span<const SheetStation> stations,
                           const StationTable& table, const Box& line) {
  const auto cells = parted(line, station_shares(d, table));
  const Length most = std::min(3.5 * mm, line.height / 1.8);
  StationSizes sizes{in_two_lines(d, line.height) ? 3 * mm : most, most};
  for (const SheetStation& s : stations) {
    const auto texts = station_texts(d, s, line.height).columns;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      Length& size = i == 1 ? sizes.along : sizes.others;
      const TextStyle style{.capitals = size, .face = i == 0 ? Face::bold : Face::regular};
      const Length width = canvas.width_of(texts.at(i), style);
      const Length room = text_room(cells.at(i)).width;
      if (width > room) size = room / width * size;
    }
  }
  return sizes;
}

void draw_station(Canvas& canvas, const Dossier& d, const SheetStation& s, const StationTable& table, const Box& box,
                  const StationSizes& sizes) {
  const auto cells = parted(box, station_shares(d, table));
  const StationTexts texts = station_texts(d, s, box.height);
  std::vector<Box> outlines;
  for (std::size_t i = 0; i < (table.results ? cells.size() : cells.size() - 1); ++i) {
    const bool joins_the_one_before = i == 4 && !texts.instead.empty();
    if (joins_the_one_before) {
      outlines.back().width = cells.at(i).right() - outlines.back().x;
    } else {
      outlines.push_back(cells.at(i));
    }
  }
  draw_cells(canvas, outlines);
  const Length decimal_capitals = std::min(2.2 * mm, sizes.along);
  for (std::size_t i = 0; i < texts.columns.size(); ++i) {
    const Box room = text_room(cells.at(i));
    const TextStyle style{.capitals = i == 1 ? sizes.along : sizes.others,
                          .face = i == 0 ? Face::bold : Face::regular,
                          .align = i == 0 ? Align::left : Align::right};
    const Spot at{i == 0 ? room.x : room.right(), room.y + room.height / 2 + style.capitals / 2};
    const Length raise = i == 1 && !texts.decimal.empty() ? (decimal_capitals + 1 * mm) / 2 : 0 * mm;
    canvas.text({at.x, at.y - raise}, texts.columns.at(i), style);
    if (raise <= 0 * mm) continue;
    canvas.text({at.x, at.y - raise + 1 * mm + decimal_capitals}, texts.decimal,
                {.capitals = decimal_capitals, .align = Align::right});
  }
  if (!texts.instead.empty()) {
    fitted(canvas, text_room(outlines.at(3)), texts.instead, {.capitals = 2.5 * mm, .least = 1.3 * mm});
  }
}

/// "6, 7: wood under the ferrule; its outside Ø20.0 mm. "; empty without one.
std::string under_ferrule_note(const Dossier& d, std::span<const SheetStation> stations) {
  std::string numbers;
  for (const SheetStation& s : stations) {
    if (is_under_ferrule(d.order, s)) numbers += fmt::format("{}{}", numbers.empty() ? "" : ", ", s.number);
  }
  if (numbers.empty()) return {};
  return fmt::format(
      "{}: {} Ø{}. ", numbers, d.sheet_template.words[Word::ferrule_rows],
      shown(d, printed(d.order.ferrule->outside_diameter.value, size_printing(d, Fineness::measured))));
}

std::string stations_note(const Dossier& d, std::span<const SheetStation> stations, const StationTable& table) {
  const WordTable& w = d.sheet_template.words;
  const bool smooth = d.order.handle.form.value == FormLine::smooth;
  const std::size_t all = d.plan.form.stations().size();
  std::string out = w[smooth ? Word::form_smooth : Word::form_straight];
  if (static_cast<std::size_t>(table.shown) < all) {
    out = fmt::format("{} / {} {}; ", table.shown, all, w[Word::stations_left_out]) + out;
  }
  return under_ferrule_note(d, stations) + out;
}

// -- holds
// -----------------------------------------------------------------------------------------------------------

constexpr Length hold_gap = 1.5 * mm;
constexpr Length signature_height = 8.5 * mm;
constexpr Length most_signature_height = 14 * mm;

struct Hold {
  Block words;
  Length height;
};

/// Oven and bath are over when blanks come to the turner, and so are their holds.
bool is_of_the_bath(const OperationFacts& op) { return op.planned && op.planned->value != PlannedWork::glue_setting; }

/// The last holds before the turning, as many as find room.
std::vector<Hold> holds_that_fit(const Canvas& canvas, const Dossier& d, Length width, Length room, Length capitals) {
  std::vector<Hold> holds;
  for (auto op = d.shop.routing.rbegin(); op != d.shop.routing.rend(); ++op) {
    if (is_of_the_bath(*op)) break;
    if (!op->hold) continue;
    const std::array phrases{Phrase{op->hold->value, {.capitals = capitals, .least = capitals}}};
    Hold hold{set_block(canvas, phrases, width), {}};
    hold.height = std::max(hold.words.height + 1 * mm, 6 * mm) + signature_height;
    const Length wanted = hold.height + (holds.empty() ? 0 * mm : hold_gap);
    if (wanted > room) break;
    room -= wanted;
    holds.push_back(std::move(hold));
  }
  std::reverse(holds.begin(), holds.end());
  return holds;
}

}  // namespace

void draw_checks(Canvas& canvas, const Dossier& d, const Box& box) {
  const WordTable& w = d.sheet_template.words;
  const auto head = parted({box.x, box.y, box.width, table_head}, check_shares);
  const Box title{head[0].x, box.y, head[2].right() - head[0].x, table_head};
  canvas.rectangle(title);
  fitted(canvas, text_room(title), w[Word::checks_title], title_style);
  canvas.rectangle(head[3]);
  fitted(canvas, text_room(head[3]), w[Word::result], head_style);
  canvas.rectangle(head[4]);
  fitted(canvas, text_room(head[4]), w[Word::initials], head_style);
  const Length height = (box.height - table_head) / check_count;
  Box line{box.x, box.y + table_head, box.width, height};
  for (const CheckRow& row : check_rows(d)) {
    const auto cells = parted(line, check_shares);
    draw_cells(canvas, cells);
    canvas.text_in(text_room(cells[0]), fmt::format("{}", static_cast<int>(row.check)),
                   {.capitals = 3.5 * mm, .face = Face::bold, .align = Align::centre});
    fitted(canvas, text_room(cells[1]), row.words, {.capitals = 2.5 * mm, .least = 1.3 * mm});
    draw_value(canvas, text_room(cells[2]), row);
    line.y = line.bottom();
  }
}

void draw_holds(Canvas& canvas, const Dossier& d, const Box& box) {
  const WordTable& w = d.sheet_template.words;
  const TextStyle word_style{.capitals = 3.5 * mm, .face = Face::bold};
  const Length word_width = canvas.width_of(w[Word::hold], word_style) + 3 * mm;
  const Length width = box.width - word_width - 2 * mm;
  if (width < 15 * mm) return;
  Length capitals = 2.5 * mm;
  std::vector<Hold> holds = holds_that_fit(canvas, d, width, box.height, capitals);
  for (const Length smaller : {2.2 * mm, 1.8 * mm}) {
    std::vector<Hold> more = holds_that_fit(canvas, d, width, box.height, smaller);
    if (more.size() > holds.size()) holds = std::move(more);
  }
  if (holds.empty()) return;
  Length spare = box.height - (static_cast<double>(holds.size()) - 1) * hold_gap;
  for (const Hold& hold : holds) spare -= hold.height;
  spare = std::min(spare / static_cast<double>(holds.size()), most_signature_height - signature_height);
  Length y = box.y;
  for (const Hold& hold : holds) {
    canvas.rectangle({box.x, y, box.width, hold.height + spare}, hold_line);
    const Length words_height = hold.height - signature_height;
    canvas.text({box.x + 1.5 * mm, y + 1.2 * mm + word_style.capitals}, w[Word::hold], word_style);
    place_block(canvas, {box.x + word_width, y + (words_height - hold.words.height) / 2}, hold.words);
    canvas.line({box.x, y + words_height}, {box.x + box.width, y + words_height});
    canvas.text({box.x + 1.5 * mm, y + words_height + 2.8 * mm}, w[Word::signature], {.capitals = 1.8 * mm});
    y += hold.height + spare + hold_gap;
  }
}

StationTable station_table(int stations, int columns, Length row, Length most) {
  const Length room = most - 2 * table_head;
  const int rows = (stations + columns - 1) / columns;
  if (rows * row <= room) return {.columns = columns, .rows = rows, .row = row, .results = true, .shown = stations};
  const int small_rows = std::min((stations + 2) / 3, static_cast<int>(room / least_row));
  return {.columns = 3,
          .rows = small_rows,
          .row = std::min(most_row_without_results, room / small_rows),
          .results = false,
          .shown = std::min(stations, 3 * small_rows)};
}

void draw_stations(Canvas& canvas, const Dossier& d, std::span<const SheetStation> stations,
                   const StationTable& table, const Box& box) {
  const WordTable& w = d.sheet_template.words;
  const Length title_width = canvas.width_of(w[Word::stations_title], title_style);
  const Box title{box.x, box.y, std::min(title_width, box.width / 2), table_head};
  fitted(canvas, title, w[Word::stations_title], title_style);
  fitted(canvas, {title.right() + 4 * mm, box.y, box.right() - title.right() - 4 * mm, table_head},
         stations_note(d, stations, table), {.capitals = 2.2 * mm, .least = 1.3 * mm});
  const Length gap = 2 * mm;
  const Length width = (box.width - (table.columns - 1) * gap) / table.columns;
  const StationSizes sizes = station_sizes(canvas, d, stations, table, {box.x, box.y, width, table.row});
  for (int column = 0; column < table.columns; ++column) {
    Box line{box.x + column * (width + gap), box.y + table_head, width, table_head};
    draw_station_head(canvas, d, table, line);
    line = {line.x, line.bottom(), width, table.row};
    for (int i = column * table.rows; i < std::min((column + 1) * table.rows, table.shown); ++i) {
      draw_station(canvas, d, stations[static_cast<std::size_t>(i)], table, line, sizes);
      line.y = line.bottom();
    }
  }
}

}  // namespace blankwright
