#include "sheet/sheet/turner_sheet.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include "diagnose/failure.h"
#include "sheet/drawing/handle_drawing.h"
#include "sheet/frame/frame.h"
#include "sheet/sheet/sheets.h"
#include "sheet/sheet/small_print.h"
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
    {6 * mm, 2, Lettering::hand, table_most, print_most},
    {6 * mm, 3, Lettering::hand, table_most, print_most},
    {5.2 * mm, 2, Lettering::hand, table_most, print_most},
    {5.2 * mm, 3, Lettering::hand, table_most, print_most},
    {7 * mm, 2, Lettering::note, table_most, print_most},
    {6 * mm, 2, Lettering::note, table_most, print_most},
    {5.2 * mm, 2, Lettering::note, table_most, print_most},
    {6 * mm, 3, Lettering::note, table_most, print_most},
    {5.2 * mm, 3, Lettering::note, table_most, print_most},
    // From here on less room is left to cautions; others stand on the inspection sheet.
    {5.2 * mm, 2, Lettering::note, table_most, 42 * mm},
    {5.2 * mm, 3, Lettering::note, table_most, 42 * mm},
    {5.2 * mm, 2, Lettering::note, table_most, 30 * mm},
    {5.2 * mm, 3, Lettering::note, table_most, 30 * mm},
    {5.2 * mm, 2, Lettering::note, table_most, 18 * mm},
    {5.2 * mm, 3, Lettering::note, table_most, 18 * mm},
    {3.8 * mm, 3, Lettering::note, table_most, print_most},
    {3.8 * mm, 3, Lettering::note, table_most, 30 * mm},
    // And from here on stations out of the table.
    {3.8 * mm, 3, Lettering::note, 40 * mm, print_most, Face::narrow},
    {3.8 * mm, 3, Lettering::note, 30 * mm, print_most, Face::narrow},
    {3.8 * mm, 3, Lettering::note, 24 * mm, 40 * mm, Face::narrow},
    {3.8 * mm, 3, Lettering::note, 18 * mm, 30 * mm, Face::narrow},
    {3.8 * mm, 3, Lettering::note, 18 * mm, 12 * mm, Face::narrow},
    {3.8 * mm, 3, Lettering::note, 18 * mm, 4 * mm, Face::narrow},
});
constexpr Length enlarged_below = 30 * mm;      // shorter handles
constexpr Length least_drawn_length = 30 * mm;  // of a handle that is to be recognised

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

/// All but its drawing.
Plan without_drawing(const Canvas& canvas, const Dossier& d, const Box& body, const Layout& layout,
                     const SmallText& text) {
  const int count = static_cast<int>(sheet_stations(d).size());
  Plan plan;
  plan.layout = layout;
  plan.enlarged = enlarged(canvas);
  plan.table = station_table(canvas, count, layout.columns, layout.row, plan.enlarged * layout.stations);
  plan.stations = sheet_stations(d, plan.table.shown);
  plan.print = text.within(plan.enlarged * layout.small_most);
  plan.drawing_height = left_for_drawing(plan, d.sheet_template, body.height);
  return plan;
}

std::optional<DrawingLayout> drawing_of(const Plan& plan, const Canvas& canvas, const Dossier& d, const Box& body) {
  // Where it is drawn 1:1 it is the half-profile as well.
  const double largest_scale = d.plan.form.length() < enlarged_below ? 5 : 1;
  return drawing_layout(canvas, d, plan.stations, body.width - 2 * turner_gap, plan.drawing_height - 2 * turner_gap,
                        largest_scale);
}

/// What a plan is worth: what comes first counts more than all that comes after it.
using Worth = std::tuple<bool, int, bool, double, bool, bool, std::ptrdiff_t, Lettering>;

Worth worth_of(const Plan& plan, const DrawingLayout& drawing, const Canvas& canvas, const Dossier& d,
               const Box& body) {
  const double factor = drawing.scale.factor;
  return {factor * d.plan.form.length() >= least_drawn_length,
          plan.table.shown,
          drawing.labels == StationLabels::dimensions,
          std::min(factor, 1.0),
          drawing.bore.has_value(),
          station_lettering(canvas, d, plan.stations, plan.table, body.width) >= Lettering::machine,
          -static_cast<std::ptrdiff_t>(plan.print.left_out),
          drawing.size};
}

/// The first of the layouts that none is worth more than.
Plan planned(const Canvas& canvas, const Dossier& d, const Box& body) {
  std::vector<Plan> all;
  std::map<std::pair<Lettering, Face>, SmallText> texts;
  for (const Layout& layout : layouts_by_room) {
    const TextStyle style{.size = layout.small, .face = layout.face};
    const auto text = texts.try_emplace({style.size, style.face}, canvas, d, body.width, style).first;
    all.push_back(without_drawing(canvas, d, body, layout, text->second));
  }
  std::vector<const Plan*> by_room;
  for (const Plan& plan : all) by_room.push_back(&plan);
  std::ranges::stable_sort(by_room, std::ranges::greater{}, [](const Plan* plan) { return plan->drawing_height; });
  // What has less room for as many stations is not tried where it could not be worth more with the most room.
  std::map<int, std::optional<DrawingLayout>> roomiest;
  for (const Plan* plan : by_room) {
    if (!roomiest.contains(plan->table.shown)) roomiest[plan->table.shown] = drawing_of(*plan, canvas, d, body);
  }
  std::optional<Plan> best;
  Worth most;
  for (Plan& plan : all) {
    const auto& limit = roomiest.at(plan.table.shown);
    if (!limit || (best && worth_of(plan, *limit, canvas, d, body) <= most)) continue;
    const auto drawing = drawing_of(plan, canvas, d, body);
    if (!drawing) continue;
    plan.drawing = *drawing;
    const Worth worth = worth_of(plan, plan.drawing, canvas, d, body);
    if (best && worth <= most) continue;
    most = worth;
    best = std::move(plan);
  }
  BW_EXPECT(best.has_value());  // the smallest scale finds room between the smallest of everything else
  return *std::move(best);
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

namespace {

/// None where the template has no such sheet.
std::optional<Plan> plan_of_sheet(const Dossier& d, const FontMetrics& fonts) {
  const auto& sheets = d.sheet_template.sheets;
  if (std::ranges::find(sheets, SheetKind::turner, &Given<SheetKind>::value) == sheets.end()) return std::nullopt;
  Sheet sheet = begin_sheet(d, fonts, Word::turner_sheet);
  const Canvas canvas{sheet.page, fonts, lettering_of(d.sheet_template)};
  return planned(canvas, d, sheet.body);
}

}  // namespace

bool draws_true_to_size(const Dossier& d, const FontMetrics& fonts) {
  const auto plan = plan_of_sheet(d, fonts);
  return plan && plan->drawing.true_size;
}

std::vector<std::string> cautions_for_inspection(const Dossier& d, const FontMetrics& fonts) {
  const auto plan = plan_of_sheet(d, fonts);
  if (!plan) return {};
  std::vector<std::string> all = turners_cautions(d);
  return {all.end() - static_cast<std::ptrdiff_t>(plan->print.left_out), all.end()};
}

void turner_sheets(OrderFlow& flow) { add_pages(flow, {turner_sheet(flow.dossier, flow.fonts)}); }

}  // namespace blankwright
