#include "sheet/sheet/turner_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/order/cautions.h"
#include "plan/part/judge_seat.h"
#include "sheet/frame/frame.h"
#include "sheet/mark/fitted.h"
#include "sheet/paper/said_times.h"

namespace blankwright {
namespace {

constexpr Length part_border = 1 * mm;
constexpr Length column_gap = 4 * mm;
constexpr Length least_setting = 13.4 * mm;  // of its width: a drill called "F" has its size below
constexpr TextStyle caption_style{.size = Lettering::note};

void draw_caption(Canvas& canvas, const Box& cell, const std::string& words) {
  fitted(canvas, {cell.x + part_border, cell.y + 0.1 * mm, cell.width - 2 * part_border, enlarged(canvas) * 3.2 * mm},
         words, caption_style);
}

struct TitleCell {
  std::string caption, value;
  int columns;
};

/// "Diameters ±0.5 mm, lengths ISO 2768-1 c": a decimal, as a caliper shows it; of lengths an order says nothing, and
/// the general tolerances hold from which those of diameters are taken.
std::string tolerance_text(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  return fmt::format("{} ±{}, {}", w[Word::tolerance_note],
                     shown(d, decimal_at_most(d, d.order.handle.tolerance.value, station_printing(d).fineness)),
                     w[Word::tolerance_lengths]);
}

/// A setting as it is printed: what is looked for first large, what goes with it small below.
struct Setting {
  std::string caption, large, unit, small;
};

/// "1-5/16 in (1.312)" as what a rule shows, its unit, and the decimal that goes with it.
Setting setting(const Dossier& d, std::string caption, const Printed& value, const std::string& rule) {
  const Spelling& spelling = d.sheet_template.spelling;
  Setting out{std::move(caption), amounts_text(value, spelling), "", joined({aside_text(value, spelling), rule})};
  if (value.amounts.empty()) return out;
  const Amount& amount = value.amounts.front();
  out.large = text(amount.number, spelling);
  if (amount.unit != PrintedUnit::none) out.unit = " " + spelling[amount.unit];
  return out;
}

std::vector<Setting> drill_settings(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const auto figure = [&](Figure f) { return figure_text(d, f); };
  const auto set = [&](std::string caption, Figure f, const std::string& rule) {
    return setting(d, std::move(caption), printed_figure(d, f), rule);
  };
  const Amount& drill = d.plan.bore.drill.stamped;
  const bool says_its_size = drill.unit != PrintedUnit::none;
  std::vector<Setting> out{
      setting(d, w[Word::drill], {.amounts = {drill}}, says_its_size ? "" : figure(Figure::bore_diameter)),
      set(w[Word::depth_stop], Figure::bore_depth_from_drilled_face, ""),
      set(w[Word::metal_zone], Figure::stud_embedded, w[Word::metal_zone_rule]),
      set(w[Word::speed_ceiling], Figure::turning_speed_ceiling,
          fmt::format("{} {}, {}", w[Word::swing], figure(Figure::turning_swing), w[Word::speed_note])),
      set(w[Word::section] + ", " + w[Word::state_squared], Figure::blank_squared_section, ""),
      set(w[Word::length] + ", " + w[Word::state_squared], Figure::blank_squared_length, ""),
  };
  if (is_rounded(d)) {
    out.insert(out.begin(), set(w[Word::round_to], Figure::rounded_diameter,
                                fmt::format("{} {}", w[Word::round_to_rule], figure(Figure::rounded_marking))));
  }
  return out;
}

struct SmallLine {
  SetPhrase line;
  bool begins = false;  ///< a paragraph, or the title over it
  bool title = false;
};

/// The lines of a text and of the title over it, if it has one.
void add_lines(std::vector<SmallLine>& lines, const Canvas& canvas, Length width, const TextStyle& style,
               const std::string& title, const std::string& words) {
  TextStyle plain = style;
  plain.least = style.size;
  TextStyle bold = plain;
  bold.face = Face::bold;
  const std::array phrases{Phrase{title, bold}, Phrase{words, plain}};
  bool begins = true;
  for (const SetPhrase& phrase : set_block(canvas, phrases, width).phrases) {
    for (const std::string& line : phrase.lines.lines) {
      const bool is_title = phrase.style.face == Face::bold;
      lines.push_back({{{{line}, phrase.lines.em, phrase.lines.line_step}, phrase.style}, begins, is_title});
      begins = false;
    }
  }
}

/// What the order asks of the piece beside its form: finish, voids, whether the pieces match.
std::string wanted_text(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  constexpr std::array voids{Word::voids_none, Word::voids_small, Word::voids_any};
  std::string out =
      fmt::format("{}: {}", w[Word::voids], w[voids.at(static_cast<std::size_t>(d.order.wood.voids.value))]);
  if (d.order.finish) out = fmt::format("{}: {} · {}", w[Word::finish], d.order.finish->value, out);
  if (d.order.wood.matched.value) out += " · " + w[Word::matched_set];
  return out;
}

/// What wood does after it is turned, where the order says where the piece is used and the seat outgrows its
/// tolerance there; empty otherwise.
std::string growth_text(const Dossier& d) {
  const SizeInUse& size = d.plan.in_use;
  if (!seat_outgrows(size, d.order)) return {};
  const WordTable& w = d.sheet_template.words;
  const auto figure = [&](Figure f) { return figure_text(d, f); };
  std::string out =
      fmt::format("{} {}: {}", w[Word::seat_grows], figure(Figure::size_gain_high), w[Word::seat_grows_wait]);
  if (size.turn_to > 0 * mm) {
    out += fmt::format(", {} {}", w[Word::seat_grows_turn], figure(Figure::size_turn_to));
  }
  return out + ".";
}

/// The cautions of boring, gluing and turning, then the shop's own. Those of other work stand on its sheets.
std::vector<std::string> turners_cautions(const Dossier& d) {
  const CautionTable& texts = d.sheet_template.cautions;
  std::vector<std::string> out;
  for (const Caution caution : cautions_for(d.order, d.shop, d.plan)) {
    const CautionStep step = step_of(caution);
    if (step == CautionStep::boring || step == CautionStep::turning) out.push_back(texts[caution]);
  }
  for (const auto& own : texts.more) out.push_back(own.value);
  return out;
}

/// What is wanted, notes and the first so many cautions.
std::vector<SmallLine> small_lines(const Canvas& canvas, const Dossier& d, Length width, const TextStyle& style,
                                   const std::vector<std::string>& all, std::size_t cautions) {
  const WordTable& w = d.sheet_template.words;
  std::vector<SmallLine> lines;
  add_lines(lines, canvas, width, style, "", wanted_text(d));
  if (const std::string growth = growth_text(d); !growth.empty()) {
    add_lines(lines, canvas, width, style, "", growth);
  }
  if (d.order.notes) {
    std::string notes = d.order.notes->value;
    std::replace(notes.begin(), notes.end(), '\n', ' ');
    add_lines(lines, canvas, width, style, w[Word::notes], notes);
  }
  const std::string title = w[Word::cautions_title] + ". " + w[Word::cautions_first];
  for (std::size_t i = 0; i < cautions; ++i) {
    add_lines(lines, canvas, width, style, i == 0 ? title : "", "• " + all.at(i));
  }
  if (cautions < all.size()) {
    add_lines(lines, canvas, width, style, fmt::format("{} {}", all.size() - cautions, w[Word::cautions_left_out]),
              "");
  }
  return lines;
}

/// Where the second column begins: in the middle, or a line beside it if a paragraph ends there; at the smallest size
/// room comes first. A title does not stay alone at the foot of the first.
std::size_t column_break(const std::vector<SmallLine>& lines) {
  std::size_t cut = (lines.size() + 1) / 2;
  const bool smallest = lines.front().line.style.size == Lettering::note;
  for (const std::size_t other : {cut, cut - 1, cut + 1}) {
    if (!smallest && other > 0 && other < lines.size() && lines.at(other).begins && !lines.at(other - 1).title)
      return other;
  }
  while (cut < lines.size() && lines.at(cut - 1).title) ++cut;
  return cut;
}

SmallPrint in_two_columns(const std::vector<SmallLine>& lines) {
  SmallPrint print;
  if (lines.empty()) return print;
  const std::size_t cut = column_break(lines);
  for (std::size_t i = 0; i < lines.size(); ++i) (i < cut ? print.left : print.right).push_back(lines.at(i).line);
  print.height = static_cast<double>(std::max(cut, lines.size() - cut)) * lines.front().line.lines.line_step;
  return print;
}

}  // namespace

void draw_title_block(Canvas& canvas, const Dossier& d, const Box& box, std::string_view scale) {
  const WordTable& w = d.sheet_template.words;
  const auto or_not = [&](const auto& given) { return given ? given->value : w[Word::not_stated]; };
  const bool metric = d.shop.units.value == UnitSystem::metric;
  const std::array cells{
      TitleCell{w[Word::owner], d.order.client.value, 5},
      TitleCell{w[Word::drawing], or_not(d.order.drawing), 2},
      TitleCell{w[Word::revision], or_not(d.order.revision), 1},
      TitleCell{w[Word::issue_date],
                d.draft ? w[Word::draft] : day_text(d.sheet_template, date_of(d.shop.zone.value, d.at)), 3},
      TitleCell{w[Word::created_by], d.shop.name.value, 3},
      TitleCell{w[Word::approved_by], "", 2},
      TitleCell{w[Word::scale], std::string{scale}, 2},
      TitleCell{w[Word::units], w[metric ? Word::units_metric : Word::units_inch], 2},
      TitleCell{w[Word::tolerance], tolerance_text(d), 4},
  };
  Box cell{box.x, box.y, {}, box.height};
  for (const TitleCell& c : cells) {
    cell.width = box.width * c.columns / grid_columns;
    canvas.rectangle(cell);
    draw_caption(canvas, cell, c.caption);
    if (!c.value.empty()) {
      const Length above = enlarged(canvas) * 3.4 * mm;
      fitted(canvas,
             {cell.x + part_border, cell.y + above, cell.width - 2 * part_border, cell.height - above - 0.3 * mm},
             c.value, {});
    }
    cell.x = cell.right();
  }
}

/// "After boring face off 3.00 mm · cut the stud to 50.00 mm, A2-70 · …": what no setting says and all depend on.
std::string steps_text(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const std::string grade = d.order.stud.grade ? ", " + d.order.stud.grade->value : "";
  std::string steps = fmt::format(
      "{}; {} {} · {} {}{} · {} {}", w[Word::depth_stop_rule], w[Word::face_off],
      shown(d, printed(d.shop.allowances.seat_facing.value, size_printing(d, Fineness::measured))), w[Word::cut_stud],
      figure_text(d, Figure::stud_cut_length), grade, w[Word::bore_ends], figure_text(d, Figure::bore_tip_depth));
  const auto wanted = wanted_tightening(d);
  const bool limited = d.plan.tightened.largest.has_value();
  const std::string most = limited ? figure_text(d, Figure::stud_largest_tightening) : std::string{};
  if (wanted) steps += fmt::format(" · {} {}", w[Word::tighten_to], *wanted);
  if (wanted && limited && *wanted != most) steps += fmt::format(", {} {}", w[Word::runs_at_most], most);
  if (!wanted && limited) steps += fmt::format(" · {} {}", w[Word::tighten_most], most);
  return steps;
}

namespace {

/// How many columns of the grid each takes, at least what it wants; what is left goes to the fullest. Empty where
/// there are too few.
std::vector<int> columns_for(const std::vector<Length>& wanted, Length column) {
  std::vector<int> out;
  int free = grid_columns;
  for (const Length width : wanted) {
    out.push_back(static_cast<int>(std::ceil(width / column - 1e-6)));
    free -= out.back();
  }
  if (free < 0) return {};
  for (; free > 0; --free) {
    std::size_t fullest = 0;
    for (std::size_t i = 1; i < wanted.size(); ++i) {
      if (wanted.at(i) / out.at(i) > wanted.at(fullest) / out.at(fullest)) fullest = i;
    }
    ++out.at(fullest);
  }
  return out;
}

}  // namespace

void draw_settings(Canvas& canvas, const Dossier& d, const Box& whole_box) {
  const double high = enlarged(canvas);
  const Length steps_height = high * 8.4 * mm;
  const Box box{whole_box.x, whole_box.y, whole_box.width, whole_box.height - steps_height};
  const Box steps{box.x, box.bottom(), box.width, steps_height};
  canvas.rectangle(steps, wide_line);
  const std::array phrase{Phrase{steps_text(d), {.size = Lettering::note}}};
  const Block block = set_block(canvas, phrase, steps.width - 2 * part_border);
  place_block(canvas, {steps.x + part_border, steps.y + (steps.height - block.height) / 2}, block);
  const auto all = drill_settings(d);
  TextStyle large{.size = Lettering::figure, .face = Face::bold};
  TextStyle unit{.size = Lettering::hand, .face = Face::bold};
  const auto wanted = [&] {
    std::vector<Length> widths;
    for (const Setting& s : all)
      widths.push_back(std::max(least_setting, canvas.width_of(s.large, large) + canvas.width_of(s.unit, unit)) +
                       2 * part_border);
    return widths;
  };
  const Length column = box.width / grid_columns;
  std::vector<int> columns = columns_for(wanted(), column);
  while (columns.empty() && large.size > Lettering::note) {
    large.size = smaller(large.size);
    unit.size = smaller(unit.size);
    columns = columns_for(wanted(), column);
  }
  BW_EXPECT(!columns.empty());  // the smallest figures find room on the smallest paper
  Box cell{box.x, box.y, {}, box.height};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Setting& s = all.at(i);
    cell.width = columns.at(i) * column;
    const Length width = cell.width - 2 * part_border;
    canvas.rectangle(cell, wide_line);
    draw_caption(canvas, cell, s.caption);
    const Spot at{cell.x + part_border, cell.y + high * 8.9 * mm};
    canvas.text(at, s.large, large);
    canvas.text({at.x + canvas.width_of(s.large, large), at.y}, s.unit, unit);
    if (!s.small.empty()) {
      fitted(canvas, {at.x, cell.y + high * 9.3 * mm, width, cell.height - high * 9.8 * mm}, s.small,
             {.size = Lettering::note});
    }
    cell.x = cell.right();
  }
}

SmallPrint small_print(const Canvas& canvas, const Dossier& d, Length width, const TextStyle& style, Length most) {
  const Length column = (width - column_gap) / 2;
  const std::vector<std::string> all = turners_cautions(d);
  for (std::size_t cautions = all.size();; --cautions) {
    SmallPrint print = in_two_columns(small_lines(canvas, d, column, style, all, cautions));
    print.left_out = all.size() - cautions;
    if (print.height <= most || cautions == 0) return print;
  }
}

void draw_small_print(Canvas& canvas, const SmallPrint& print, const Box& box) {
  Spot at{box.x, box.y};
  for (const auto* side : {&print.left, &print.right}) {
    for (const SetPhrase& line : *side) {
      canvas.paragraph(at, box.width, line.lines, line.style);
      at.y += line.lines.height();
    }
    at = {box.x + (box.width + column_gap) / 2, box.y};
  }
}

}  // namespace blankwright
