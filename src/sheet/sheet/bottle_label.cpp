#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "plan/figure/figure.h"
#include "sheet/frame/flow.h"
#include "sheet/mark/fitted.h"
#include "sheet/paper/card_figure.h"
#include "sheet/paper/left_over_resin.h"
#include "sheet/paper/said_times.h"
#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

constexpr Length label_width = 90 * mm, label_height = 60 * mm;
constexpr Length label_border = 3 * mm;
constexpr int labels_of_a_bath = 2;

std::string orders_text(const WordTable& w, const BathOnPaper& bath) {
  std::string orders = fmt::format("{} {}: ", w[Word::bath_number], bath.number);
  for (std::size_t i = 0; i < bath.shares.size(); ++i) {
    orders += (i == 0 ? "" : ", ") + bath.shares.at(i).order_id;
  }
  return orders;
}

/// What stands in the four fields: a caption, and below it the figure.
std::array<CardSetting, 4> fields(const Dossier& d, const PlannedBath& planned) {
  const WordTable& w = d.sheet_template.words;
  const auto on = planned.activated, until = use_by(planned);
  return {
      CardSetting{w[Word::bottle_left_over], card_figure(d, planned.figures, Figure::bath_left_over)},
      CardSetting{w[Word::bath_keep_below], at_most(d, planned.bath.resin->storage_most.value)},
      CardSetting{w[Word::bottle_activated], printed_words(on ? day_text(d.sheet_template, *on) : "–")},
      CardSetting{w[Word::bath_use_by], printed_words(until ? day_text(d.sheet_template, *until) : "–")},
  };
}

void draw_label(Canvas& canvas, const Dossier& d, const BathOnPaper& bath, Spot at) {
  const WordTable& w = d.sheet_template.words;
  const PlannedBath& planned = *bath.planned;
  const Box outline{at.x, at.y, label_width, label_height};
  canvas.polyline({{outline.x, outline.y},
                   {outline.right(), outline.y},
                   {outline.right(), outline.bottom()},
                   {outline.x, outline.bottom()}},
                  narrow_line, Dash::tear, true);
  const Box room = inside(outline, label_border);
  std::string name = planned.bath.resin->name.value;
  if (!planned.dye.empty()) name += ", " + planned.dye;
  canvas.text_fitted({room.x, room.y, room.width, 4 * mm}, w[Word::bottle_title], {.capitals = 2.5 * mm});
  canvas.text_fitted({room.x, room.y + 4 * mm, room.width, 7.5 * mm}, name,
                     {.capitals = 5 * mm, .face = Face::bold, .least = 2.5 * mm});
  const auto all = fields(d, planned);
  draw_card_settings(canvas, {room.x, room.y + 12 * mm, room.width, 12.5 * mm}, d.sheet_template,
                     std::span{all}.first(2), 2);
  draw_card_settings(canvas, {room.x, room.y + 24.5 * mm, room.width, 12.5 * mm}, d.sheet_template,
                     std::span{all}.last(2), 2);
  const Box written{room.x, room.y + 37 * mm, room.width / 2, 8 * mm};
  for (const double n : {0.0, 1.0}) {
    const Box field{written.x + n * written.width, written.y, written.width, written.height};
    canvas.rectangle(field, wide_line);
    canvas.text_fitted({field.x + 1 * mm, field.y + 0.6 * mm, field.width - 2 * mm, 2.4 * mm},
                       w[n == 0 ? Word::bottle_really_on : Word::bottle_really_left], {.capitals = 1.9 * mm});
  }
  fitted(canvas, {room.x, room.y + 45.3 * mm, room.width, 3.3 * mm}, orders_text(w, bath),
         {.capitals = 1.9 * mm, .least = 1.5 * mm});
  fitted(canvas, {room.x, room.y + 48.6 * mm, room.width, 5.4 * mm}, w[Word::bottle_caution],
         {.capitals = 1.8 * mm, .least = 1.4 * mm});
}

}  // namespace

/// Labels to cut out for the bottles of activated resin that the order's baths leave over, two for each bath: what it
/// is, since when, until when and how cool it keeps, and what it was in. None for a bath that leaves nothing.
std::vector<Page> bottle_labels(const Dossier& d, const FontMetrics& fonts) {
  std::vector<const BathOnPaper*> labels;
  for (const BathOnPaper& bath : d.baths) {
    if (bath.planned->bath.left_over > 0 * litre) labels.insert(labels.end(), labels_of_a_bath, &bath);
  }
  if (labels.empty()) return {};
  OrderFlow flow = begin_flow(d, fonts, Word::bottle_labels);
  for (std::size_t i = 0; i < labels.size();) {
    const Box strip = next_strip(flow, label_height);
    Canvas canvas = canvas_of(flow);
    Length x = strip.x;
    do {
      draw_label(canvas, d, *labels.at(i++), {x, strip.y});
      x += label_width;
    } while (i < labels.size() && fits(strip.right(), x + label_width));
  }
  return pages_of(std::move(flow));
}

}  // namespace blankwright
