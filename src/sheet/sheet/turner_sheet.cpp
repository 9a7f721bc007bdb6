#include "sheet/sheet/turner_sheet.h"

#include <algorithm>
#include <array>
#include <optional>

#include "diagnose/failure.h"
#include "sheet/drawing/handle_drawing.h"
#include "sheet/frame/frame.h"
#include "sheet/sheet/sheets.h"
#include "sheet/sheet/turner_parts.h"

namespace blankwright {
namespace {

constexpr Length turner_gap = 1.5 * mm;
/// How generously the rest of the sheet is set, so that the drawing finds room.
struct Layout {
  Length row;         ///< height of the stations' rows
  int columns;        ///< stations beside each other
  Lettering small;    ///< of the small print
  Length stations;    ///< most height of the stations' table
  Length small_most;  ///< most height of the small print
  Face face = Face::regular;
};
constexpr Length table_most = 61 * mm;
constexpr Length print_most = 60 * mm;
constexpr auto layouts_by_room = std::to_array<Layout>({
    {7 * mm, 2, Lettering::hand, table_most, print_most},
    {7 * mm, 3, Lettering::hand, table_most, print_most},
    {6 * mm, 3, Lettering::hand, table_most, print_most},
    {5.2 * mm, 3, Lettering::hand, table_most, print_most},
    {7 * mm, 2, Lettering::note, table_most, print_most},
    {6 * mm, 2, Lettering::note, table_most, print_most},
    {6 * mm, 3, Lettering::note, table_most, print_most},
    {5.2 * mm, 2, Lettering::note, table_most, print_most},
    {5.2 * mm, 3, Lettering::note, table_most, print_most},
    {3.8 * mm, 3, Lettering::note, table_most, print_most},
    // From here on something may be left out: stations, cautions.
    {3.8 * mm, 3, Lettering::note, 40 * mm, print_most, Face::narrow},
    {3.8 * mm, 3, Lettering::note, 30 * mm, print_most, Face::narrow},
    {3.8 * mm, 3, Lettering::note, 24 * mm, 40 * mm, Face::narrow},
    {3.8 * mm, 3, Lettering::note, 18 * mm, 30 * mm, Face::narrow},
    {3.8 * mm, 3, Lettering::note, 18 * mm, 12 * mm, Face::narrow},
    {3.8 * mm, 3, Lettering::note, 18 * mm, 4 * mm, Face::narrow},
});
constexpr Length least_drawn_length = 30 * mm;  // of a handle that is to be recognised
constexpr std::size_t comfortable = 4;
constexpr std::size_t without_loss = 10;

/// The whole sheet, measured.
struct Plan {
  Layout layout;
  StationTable table;
  std::vector<SheetStation> stations;
  SmallPrint print;
  double enlarged = 1;  ///< by the template's lettering
  Length drawing_height;
  DrawingLayout drawing;
  /// Of a strip of the sheet.
  Length height_of(TurnerStrip strip) const {
    switch (strip) {
      case TurnerStrip::title_block:
        return enlarged * title_block_height;
      case TurnerStrip::drawing:
        return drawing_height;
      case TurnerStrip::settings:
        return enlarged * settings_height;
      case TurnerStrip::checks:
        return enlarged * checks_height;
      case TurnerStrip::stations:
        return table.height();
      case TurnerStrip::small_print:
        return print.height;
    }
    return {};
  }
};

/// What the other strips leave for the drawing.
Length left_for_drawing(const Plan& plan, const Template& t, Length all) {
  for (const auto& strip : t.turner) {
    if (strip.value != TurnerStrip::drawing) all -= plan.height_of(strip.value) + turner_gap;
  }
  return all;
}

std::optional<Plan> plan_with(const Canvas& canvas, const Dossier& d, const Box& body, const Layout& layout) {
  const int count = static_cast<int>(sheet_stations(d).size());
  Plan plan;
  plan.layout = layout;
  plan.enlarged = enlarged(canvas);
  plan.table = station_table(canvas, count, layout.columns, layout.row, plan.enlarged * layout.stations);
  plan.stations = sheet_stations(d, plan.table.shown);
  plan.print = small_print(canvas, d, body.width, {.size = layout.small, .face = layout.face},
                           plan.enlarged * layout.small_most);
  plan.drawing_height = left_for_drawing(plan, d.sheet_template, body.height);
  const auto drawing =
      drawing_layout(canvas, d, plan.stations, body.width - 2 * turner_gap, plan.drawing_height - 2 * turner_gap);
  if (!drawing) return std::nullopt;
  plan.drawing = *drawing;
  return plan;
}

bool draws_as_well(const Plan& plan, const Plan& other) {
  return plan.drawing.labels == other.drawing.labels &&
         plan.drawing.labelled.size() >= other.drawing.labelled.size() &&
         plan.drawing.scale.factor >= other.drawing.scale.factor;
}

/// The first of the layouts that costs the drawing nothing against the last of them.
std::optional<Plan> as_generous_as_may_be(const Canvas& canvas, const Dossier& d, const Box& body,
                                          std::span<const Layout> layouts) {
  auto tightest = plan_with(canvas, d, body, layouts.back());
  if (!tightest) return std::nullopt;
  for (const Layout& layout : layouts) {
    auto plan = plan_with(canvas, d, body, layout);
    const bool as_whole =
        plan && plan->table.shown >= tightest->table.shown && plan->print.left_out <= tightest->print.left_out;
    if (as_whole && draws_as_well(*plan, *tightest)) return plan;
  }
  return tightest;
}

/// Reading is comfortable if the drawing then has dimensions at full size; else smaller. What has to be left out is
/// left out only where nothing else helps.
Plan planned(const Canvas& canvas, const Dossier& d, const Box& body) {
  const std::span all{layouts_by_room};
  const auto easy = as_generous_as_may_be(canvas, d, body, all.first(comfortable));
  const bool all_is_said = easy && easy->print.left_out == 0;
  if (all_is_said && easy->drawing.labels == StationLabels::dimensions && easy->drawing.scale.factor >= 1)
    return *easy;
  if (auto plan = as_generous_as_may_be(canvas, d, body, all.first(without_loss))) return *plan;
  std::optional<Plan> fallback;
  for (const Layout& layout : all.subspan(without_loss)) {
    auto plan = plan_with(canvas, d, body, layout);
    if (!plan) continue;
    if (plan->drawing.scale.factor * d.plan.form.length() >= least_drawn_length) return *plan;
    if (!fallback) fallback = std::move(plan);
  }
  BW_EXPECT(fallback.has_value());  // the smallest scale finds room between the smallest of everything else
  return *fallback;
}

void draw_strip(Canvas& canvas, const Dossier& d, const Plan& plan, TurnerStrip kind, const Box& box) {
  switch (kind) {
    case TurnerStrip::title_block:
      draw_title_block(canvas, d, box, plan.drawing.scale.text);
      break;
    case TurnerStrip::drawing:
      canvas.rectangle(box);
      draw_handle(canvas, d, plan.stations, inside(box, turner_gap), plan.drawing);
      break;
    case TurnerStrip::settings:
      draw_settings(canvas, d, box);
      break;
    case TurnerStrip::checks:
      draw_checks(canvas, d, box);
      break;
    case TurnerStrip::stations:
      draw_stations(canvas, d, plan.stations, plan.table, box);
      break;
    case TurnerStrip::small_print:
      draw_small_print(canvas, plan.print, box);
      break;
  }
}

}  // namespace

Page turner_sheet(const Dossier& d, const FontMetrics& fonts) {
  Sheet sheet = begin_sheet(d, fonts, Word::turner_sheet);
  Canvas canvas{sheet.page, fonts, lettering_of(d.sheet_template)};
  const Plan plan = planned(canvas, d, sheet.body);
  Box strip{sheet.body.x, sheet.body.y, sheet.body.width, {}};
  const auto take = [&strip](Length height) {
    const Box taken{strip.x, strip.y, strip.width, height};
    strip.y += height + turner_gap;
    return taken;
  };
  for (const auto& strip_kind : d.sheet_template.turner) {
    const Length height = plan.height_of(strip_kind.value);
    if (height > 0 * mm) draw_strip(canvas, d, plan, strip_kind.value, take(height));
  }
  return std::move(sheet.page);
}

bool draws_true_to_size(const Dossier& d, const FontMetrics& fonts) {
  const auto& sheets = d.sheet_template.sheets;
  if (std::ranges::find(sheets, SheetKind::turner, &Given<SheetKind>::value) == sheets.end()) return false;
  Sheet sheet = begin_sheet(d, fonts, Word::turner_sheet);
  const Canvas canvas{sheet.page, fonts, lettering_of(d.sheet_template)};
  const DrawingLayout drawing = planned(canvas, d, sheet.body).drawing;
  return drawing.scale.factor == 1 && !drawing.left_out;
}

void turner_sheets(OrderFlow& flow) { add_pages(flow, {turner_sheet(flow.dossier, flow.fonts)}); }

}  // namespace blankwright
