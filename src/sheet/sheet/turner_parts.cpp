#include "sheet/sheet/turner_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "sheet/frame/frame.h"
#include "sheet/frame/table.h"
#include "sheet/mark/fitted.h"
#include "sheet/paper/said_times.h"

namespace blankwright {
namespace {

constexpr Length part_border = 1 * mm;
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
      set(w[Word::depth_stop], Figure::bore_depth_from_drilled_face, w[Word::depth_stop_rule]),
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

}  // namespace

void draw_title_block(Canvas& canvas, const Dossier& d, const Box& box, std::string_view scale) {
  const WordTable& w = d.sheet_template.words;
  const auto or_not = [&](const auto& given) { return given ? given->value : std::string{no_value}; };
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

/// What no setting says and all depend on, with its share of the grid.
struct TurnerStep {
  std::string caption, value;
  int columns;
};

std::vector<TurnerStep> turner_steps(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const auto& grade = d.order.stud.grade;
  std::vector<TurnerStep> out{
      {w[Word::face_off],
       shown(d, printed(d.shop.allowances.seat_facing.value, size_printing(d, Fineness::measured))), 6},
      {w[Word::cut_stud] + (grade ? ", " + grade->value : ""), figure_text(d, Figure::stud_cut_length), 5},
      {w[Word::bore_ends], figure_text(d, Figure::bore_tip_depth), 4}};
  const auto wanted = wanted_tightening(d);
  const bool limited = d.plan.tightened.largest.has_value();
  const std::string most = limited ? figure_text(d, Figure::stud_largest_tightening) : std::string{};
  if (wanted) {
    const bool both = limited && *wanted != most;
    out.push_back(
        {w[Word::tighten_to], both ? fmt::format("{}, {} {}", *wanted, w[Word::runs_at_most], most) : *wanted, 7});
  } else if (limited) {
    out.push_back({w[Word::tighten_most], most, 7});
  }
  return out;
}

void draw_steps(Canvas& canvas, const Dossier& d, const Box& box) {
  Box cell = box;
  const auto steps = turner_steps(d);
  for (const TurnerStep& step : steps) {
    cell.width = step.columns * box.width / grid_columns;
    if (&step == &steps.back()) cell.width = box.right() - cell.x;
    canvas.rectangle(cell, wide_line);
    captioned(canvas, cell, step.caption, step.value, Lettering::machine);
    cell.x = cell.right();
  }
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
  draw_steps(canvas, d, steps);
  const auto all = drill_settings(d);
  TextStyle large{.size = Lettering::figure, .face = Face::bold};
  TextStyle unit{.size = Lettering::hand, .face = Face::bold};
  const Length column = box.width / grid_columns;
  const auto columns_on = [&](const Canvas& on) {
    std::vector<Length> widths;
    for (const Setting& s : all)
      widths.push_back(std::max(least_setting, on.width_of(s.large, large) + on.width_of(s.unit, unit)) +
                       2 * part_border);
    return columns_for(widths, column);
  };
  Canvas usual = canvas.not_enlarged();
  std::vector<int> columns = columns_on(canvas);
  const bool enlarged_fits = !columns.empty();
  if (!enlarged_fits) columns = columns_on(usual);
  while (columns.empty() && large.size > Lettering::note) {
    large.size = smaller(large.size);
    unit.size = smaller(unit.size);
    columns = columns_on(usual);
  }
  BW_EXPECT(!columns.empty());  // the smallest figures find room on the smallest paper
  Canvas& on = enlarged_fits ? canvas : usual;
  Box cell{box.x, box.y, {}, box.height};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Setting& s = all.at(i);
    cell.width = columns.at(i) * column;
    const Length width = cell.width - 2 * part_border;
    canvas.rectangle(cell, wide_line);
    draw_caption(canvas, cell, s.caption);
    const Spot at{cell.x + part_border, cell.y + high * 8.9 * mm};
    on.text(at, s.large, large);
    on.text({at.x + on.width_of(s.large, large), at.y}, s.unit, unit);
    if (!s.small.empty()) {
      fitted(canvas, {at.x, cell.y + high * 9.3 * mm, width, cell.height - high * 9.8 * mm}, s.small,
             {.size = Lettering::note});
    }
    cell.x = cell.right();
  }
}

}  // namespace blankwright
