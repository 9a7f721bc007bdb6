#include "sheet/drawing/handle_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sheet/drawing/handle_section.h"
#include "sheet/frame/actual_size.h"
#include "sheet/mark/draughting.h"
#include "sheet/mark/fitted.h"
#include "sheet/paper/turner_facts.h"

namespace blankwright {
namespace {

constexpr Length line_gap = 1 * mm;  // between outline and extension line
constexpr Length past_dimension = 1.5 * mm;

struct Drawing {
  Canvas& canvas;
  const Dossier& dossier;
  std::span<const SheetStation> stations;
  const DrawingLayout& layout;
  HandleSection section;
  DrawingWords words;

  Length y(Length from_axis) const { return section.seat.y + from_axis; }
  Length left_of_seat(Length by) const { return section.seat.x - by; }
};

int number_of(Check check) { return static_cast<int>(check); }

void clear_below(Canvas& canvas, const Box& box) {
  canvas.add(Fill{{{{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}}}, true},
             Role::rule);
}

/// The labels above: a leader to the outline, the diameter, the number; or the number alone.
void draw_upper_labels(Drawing& d) {
  const DrawingLayout& l = d.layout;
  const Length base = d.y(-l.label_base);
  const Length bend = base + number_gap + l.jog;
  const Printing how = station_printing(d.dossier);
  for (std::size_t i = 0; i < l.label_x.size(); ++i) {
    const SheetStation& s = d.stations[l.labelled.at(i)];
    const Length x = d.section.x(s.along);
    const Length label_x = d.section.seat.x + l.label_x.at(i);
    const Spot on_outline{x, d.section.seat.y - d.section.radius(s.along)};
    Path path{{label_x, base + number_gap}, {x, bend}, on_outline};
    if (l.jog <= 0 * mm) path.erase(path.begin() + 1);
    const bool dimensions = l.labels == StationLabels::dimensions;
    if (dimensions) {
      leader(d.canvas, std::move(path));
    } else {
      d.canvas.polyline(std::move(path), narrow_line);
    }
    const TextStyle style{.capitals = l.capitals, .face = dimensions ? Face::regular : Face::bold};
    d.canvas.text_upright({label_x + l.capitals / 2, base},
                          dimensions ? "Ø" + drawn_text(d.dossier, s.diameter, how) : fmt::format("{}", s.number),
                          style);
    if (!dimensions) continue;
    const Length raise = l.staggered && i % 2 == 1 ? stagger : 0 * mm;
    balloon(d.canvas, {label_x, base - l.label_length - balloon_gap - balloon_radius - raise}, s.number);
  }
}

/// Superimposed running dimensions: one line from a circle at the seat, an arrow at every station, values in line
/// with their extension lines.
void draw_running(Drawing& d) {
  const DrawingLayout& l = d.layout;
  const Length y = d.y(l.running);
  const Length radius = 1 * mm;
  const Spot origin{d.section.seat.x, y};
  d.canvas.circle(origin, radius);
  d.canvas.line({origin.x + radius, y}, {d.section.x(d.stations.back().along), y});
  const Printing how = station_printing(d.dossier);
  Length before = origin.x + radius;
  for (std::size_t i = 0; i < d.stations.size(); ++i) {
    const SheetStation& s = d.stations[i];
    const Length x = d.section.x(s.along);
    const Length label_x = d.section.seat.x + l.label_x.at(i);
    const Length bend = y + past_dimension;
    Path path{{x, d.section.seat.y + d.section.radius(s.along) + line_gap}, {x, bend}, {label_x, bend + l.jog}};
    if (l.jog <= 0 * mm) path.pop_back();
    d.canvas.polyline(std::move(path), narrow_line);
    if (i > 0) arrow(d.canvas, {x, y}, {x - 1 * mm, y}, std::min(arrow_length, 0.9 * (x - before)));
    before = x;
    d.canvas.text_upright({label_x + l.capitals / 2, bend + l.jog + 0.6 * mm},
                          i == 0 ? "0" : drawn_text(d.dossier, s.along, how),
                          {.capitals = l.capitals, .align = Align::right});
  }
}

/// How far the stud stands out: over it, the value on the left with arrows from outside where it is short.
void draw_projection(Drawing& d) {
  const HandleSection& h = d.section;
  const Length crest = h.half(h.thread().major);
  const Length y = d.y(-crest - projection_line);
  const Length tip = h.stud_tip();
  const bool roomy = h.seat.x - tip >= 8.5 * mm;
  const TextStyle style{.capitals = 3.5 * mm, .align = Align::right};
  const Length text_end = tip - (roomy ? 1.5 * mm : arrow_length + 1.5 * mm);
  const Length text_begin = text_end - d.canvas.width_of(d.words.projection, style);
  d.canvas.line({tip, d.y(-crest) - line_gap}, {tip, y - past_dimension});
  if (h.radius(0 * mm) < crest + projection_line) {
    d.canvas.line({h.seat.x, d.y(-h.radius(0 * mm)) - line_gap}, {h.seat.x, y - past_dimension});
  }
  d.canvas.line({text_begin, y}, {h.seat.x, y});
  const Length aside = 1 * mm;
  arrow(d.canvas, {tip, y}, {roomy ? tip + aside : tip - aside, y});
  if (roomy) {
    arrow(d.canvas, {h.seat.x, y}, {h.seat.x - aside, y});
  } else {
    d.canvas.line({h.seat.x, y}, {h.seat.x + arrow_length + 2 * mm, y});
    arrow(d.canvas, {h.seat.x, y}, {h.seat.x + aside, y});
  }
  d.canvas.text({text_end, y - 1 * mm}, d.words.projection, style);
  balloon(d.canvas, {text_begin - 1 * mm - balloon_radius, y - 1 * mm - style.capitals / 2},
          number_of(Check::projection));
}

/// The ferrule's size, with a leader to its lower edge; moves the baseline on.
void draw_ferrule_words(Drawing& d, Length right, Length& baseline) {
  if (d.words.ferrule.empty()) return;
  const HandleSection& h = d.section;
  const FerruleFacts& ferrule = *d.dossier.order.ferrule;
  leader(d.canvas, {{right + 0.8 * mm, baseline - callout_capitals / 2},
                    {h.x(0.5 * ferrule.length.value), d.y(h.half(ferrule.outside_diameter.value))}});
  d.canvas.text({right, baseline}, d.words.ferrule, callout_style(d.canvas, d.words.ferrule, Align::right));
  baseline += bore_text_step;
}

/// Under the stud: its thread, the frame of its position, the bore where the wood had no room for that.
void draw_callouts(Drawing& d) {
  const HandleSection& h = d.section;
  const Length wood = h.x(-spigot_height(h.order));
  const Length right = wood - 2 * mm;
  const Length line = d.y(d.layout.thread_line);
  const TextStyle style = callout_style(d.canvas, d.words.thread, Align::right);
  d.canvas.line({right - d.canvas.width_of(d.words.thread, style), line}, {right, line});
  leader(d.canvas, {{right, line}, {(wood + h.stud_tip()) / 2, d.y(h.half(h.thread().major))}});
  d.canvas.text({right, line + 0.9 * mm + callout_capitals}, d.words.thread, style);
  const Length top = line + 4.5 * mm;
  const Length frame = position_frame_width(d.canvas, d.words.position);
  position_frame(d.canvas, {right - frame, top}, d.words.position, "B");
  balloon(d.canvas, {right - frame - 1 * mm - balloon_radius, top + frame_height / 2},
          number_of(Check::seat_position));
  Length baseline = top + frame_height + 1 * mm + callout_capitals;
  draw_ferrule_words(d, right, baseline);
  if (d.layout.bore_text) return;
  for (const std::string& words : d.words.bore) {
    d.canvas.text({right, baseline}, words, callout_style(d.canvas, words, Align::right));
    baseline += bore_text_step;
  }
}

/// Datum A at the seat with the number of its squareness, and at the axis that of the rod.
void draw_datum(Drawing& d) {
  const HandleSection& h = d.section;
  const Length y = d.y(d.layout.datum);
  if (d.layout.labels == StationLabels::numbers) {
    d.canvas.line({h.seat.x, d.y(h.radius(0 * mm)) + line_gap}, {h.seat.x, y + 2.6 * mm});
  }
  datum_feature(d.canvas, {h.seat.x, y}, "A");
  const Length x = d.left_of_seat(datum_feature_width + 1 * mm + balloon_radius);
  balloon(d.canvas, {x, y}, number_of(Check::squareness));
  const WordTable& w = d.dossier.sheet_template.words;
  d.canvas.text({x - balloon_radius - 1 * mm, y + callout_capitals / 2}, d.words.seat,
                callout_style(d.canvas, d.words.seat, Align::right));
  balloon(d.canvas, {h.stud_tip() - 4 * mm - balloon_radius, h.seat.y}, number_of(Check::rod));
  d.canvas.text({h.x(h.plan.form.length()) + 4 * mm, h.seat.y + callout_capitals / 2}, w[Word::tail],
                callout_style(d.canvas, w[Word::tail]));
}

/// The words of the metal zone right of its end, under the outline.
void draw_metal_words(Drawing& d) {
  const HandleSection& h = d.section;
  const Length end = h.x(h.plan.stud.embedded);
  const Length y = d.y(h.half(largest_drawn(d.dossier)) + 5 * mm);
  const Length x = end + metal_words_gap;
  const TextStyle style = callout_style(d.canvas, d.words.metal_zone);
  const Length width = d.canvas.width_of(d.words.metal_zone, style) + 2 * balloon_radius + 1 * mm;
  clear_below(d.canvas, {x - 0.8 * mm, y - 2.8 * mm, width + 1.6 * mm, 5.6 * mm});
  leader(d.canvas, {{x - 0.8 * mm, y}, {end - 1 * mm, d.y(chain_offset(h))}});
  balloon(d.canvas, {x + balloon_radius, y}, number_of(Check::embedded));
  d.canvas.text({x + 2 * balloon_radius + 1 * mm, y + callout_capitals / 2}, d.words.metal_zone, style);
}

void draw_view_title(Drawing& d, Spot top_left) {
  const WordTable& w = d.dossier.sheet_template.words;
  const bool rounded = is_rounded(d.dossier);
  const std::string title =
      fmt::format("{} {}. {}. {}", w[Word::section_view], d.layout.scale.text, w[Word::all_lengths_from_seat],
                  w[rounded ? Word::datum_rounded : Word::datum_squared]);
  fitted(d.canvas, {top_left.x, top_left.y, d.layout.left - 3 * mm, view_title_height}, title,
         {.capitals = 2.2 * mm, .least = 1.4 * mm}, Placing::top);
}

/// From the text to the nearer wall of the reservoir.
void draw_bore_words(Drawing& d, const Box& box) {
  const HandleSection& h = d.section;
  const Length wall = h.half(h.plan.bore.drill.diameter);
  const bool under_axis = box.y > h.seat.y;
  leader(d.canvas, {{box.x + 0.4 * mm, box.y + box.height / 2},
                    {h.x((h.plan.stud.embedded + h.plan.depth.full) / 2), d.y(under_axis ? wall : -wall)}});
  Length baseline = box.y + 1 * mm + callout_capitals;
  for (const std::string& words : d.words.bore) {
    d.canvas.text({box.x + 1 * mm, baseline}, words, callout_style(d.canvas, words));
    baseline += bore_text_step;
  }
}

}  // namespace

void draw_handle(Canvas& canvas, const Dossier& dossier, std::span<const SheetStation> stations, const Box& box,
                 const DrawingLayout& l) {
  const bool true_size = l.scale.factor == 1;
  const PrinterCorrection correction = true_size ? correction_of(dossier.shop.printer) : PrinterCorrection{};
  const Length aside = (box.width - l.left - l.right) / 2;
  const Length down = (box.height - l.above - l.below) / 2;
  Drawing d{canvas,
            dossier,
            stations,
            l,
            {.plan = dossier.plan,
             .order = dossier.order,
             .seat = {box.x + aside + l.left, box.y + down + l.above},
             .scale = l.scale.factor,
             .across = correction.across,
             .down = correction.down},
            drawing_words(dossier)};
  std::optional<Box> bore_text = l.bore_text;
  if (bore_text) {
    bore_text->x += d.section.seat.x;
    bore_text->y += d.section.seat.y;
  }
  const bool in_wood = bore_text && bore_text->x < d.section.x(dossier.plan.form.length());
  draw_section(canvas, d.section, in_wood ? bore_text : std::nullopt);
  draw_metal_zone(canvas, d.section);
  draw_upper_labels(d);
  if (l.labels == StationLabels::dimensions) draw_running(d);
  draw_metal_words(d);
  draw_projection(d);
  draw_callouts(d);
  draw_datum(d);
  draw_view_title(d, {box.x + aside, box.y});
  if (bore_text) draw_bore_words(d, *bore_text);
}

}  // namespace blankwright
