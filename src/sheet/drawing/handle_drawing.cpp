#include "sheet/drawing/handle_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ranges>

#include "sheet/drawing/client_part.h"
#include "sheet/drawing/drawing_words.h"
#include "sheet/drawing/handle_section.h"
#include "sheet/drawing/key_pictures.h"
#include "sheet/frame/actual_size.h"
#include "sheet/mark/draughting.h"
#include "sheet/mark/fitted.h"
#include "sheet/paper/turner_facts.h"

namespace blankwright {
namespace {

constexpr Length line_gap = 1 * mm;  // between outline and extension line
constexpr Length past_dimension = 1.5 * mm;
constexpr Length beside_extension = 1.2 * mm;  // of a leader from an extension line

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

void clear_below(Canvas& canvas, const Box& box) { canvas.add(Fill{{corners(box)}, Ink::white}, Role::rule); }

/// The labels above: a leader to the outline, the diameter, the number; or the number alone.
void draw_upper_labels(Drawing& d) {
  const DrawingLayout& l = d.layout;
  const Length base = d.y(-l.label_base);
  const Length bend = base + number_gap + l.jog;
  const Printing how = station_printing(d.dossier);
  for (std::size_t i = 0; i < l.label_x.size(); ++i) {
    const SheetStation& s = d.stations[l.labelled.at(i)];
    if (s.wood) continue;  // the ferrule's words have it
    // Beside the extension line that stands at the seat, and the end of a ferrule.
    const bool at_edge = d.section.outside(s.along) > d.section.radius(s.along);
    const Length x =
        std::max(d.section.x(s.along) + (at_edge ? beside_extension : 0 * mm), d.section.seat.x + beside_extension);
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
    const TextStyle style{.size = l.size, .face = dimensions ? Face::regular : Face::bold};
    d.canvas.text_upright({label_x + d.canvas.capitals(l.size) / 2, base},
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
    Path path{{x, d.section.seat.y + d.section.outside(s.along) + line_gap}, {x, bend}, {label_x, bend + l.jog}};
    if (l.jog <= 0 * mm) path.pop_back();
    d.canvas.polyline(std::move(path), narrow_line);
    if (i > 0) arrow(d.canvas, {x, y}, {x - 1 * mm, y}, std::min(arrow_length, 0.9 * (x - before)));
    before = x;
    d.canvas.text_upright({label_x + d.canvas.capitals(l.size) / 2, bend + l.jog + 0.6 * mm},
                          i == 0 ? "0" : drawn_text(d.dossier, s.along, how),
                          {.size = l.size, .align = Align::right});
  }
}

/// How far the stud stands out: over it, the value on the left with arrows from outside where it is short.
void draw_projection(Drawing& d) {
  const HandleSection& h = d.section;
  const Length crest = h.half(h.thread().major);
  const Length y = d.y(-d.layout.projection);
  const Length tip = h.stud_tip();
  const bool roomy = h.seat.x - tip >= 8.5 * mm;
  const TextStyle style{.size = Lettering::machine, .align = Align::right};
  const Length text_end = tip - (roomy ? 1.5 * mm : arrow_length + 1.5 * mm);
  const Length text_begin = text_end - d.canvas.width_of(d.words.projection, style);
  d.canvas.line({tip, d.y(-crest) - line_gap}, {tip, y - past_dimension});
  if (h.outside(0 * mm) < d.layout.projection) {
    d.canvas.line({h.seat.x, d.y(-h.outside(0 * mm)) - line_gap}, {h.seat.x, y - past_dimension});
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
  balloon(d.canvas, {text_begin - 1 * mm - balloon_radius, y - 1 * mm - d.canvas.capitals(style.size) / 2},
          number_of(Check::projection));
}

/// The ferrule's size and the wood under it, over the dimension of the stud, with a leader round that to its upper
/// edge: no other one stands there, since the stations under it have none.
void draw_ferrule_words(Drawing& d) {
  if (d.words.ferrule.empty()) return;
  const HandleSection& h = d.section;
  const FerruleFacts& ferrule = *d.dossier.order.ferrule;
  const Length right = d.left_of_seat(2 * mm), half = d.canvas.capitals(Lettering::hand) / 2;
  const Length step = callout_step * d.canvas.capitals(Lettering::hand);
  Length baseline = d.y(-d.layout.projection - ferrule_words);
  const Spot on_ferrule{h.x(0.8 * ferrule.length.value), d.y(-h.half(ferrule.outside_diameter.value))};
  leader(d.canvas, {{right + 0.8 * mm, baseline - half}, {on_ferrule.x, baseline - half}, on_ferrule});
  for (const std::string& words : std::views::reverse(d.words.ferrule)) {
    d.canvas.text({right, baseline}, words, callout_style(d.canvas, words, Align::right));
    baseline -= step;
  }
}

/// Where the leader of the thread's callout goes: from the callout's line up to the stud.
Path thread_leader(const Drawing& d) {
  const HandleSection& h = d.section;
  const Length wood = h.x(-spigot_height(h.order));
  return {{wood - 2 * mm, d.y(d.layout.thread_line)}, {(wood + h.stud_tip()) / 2, d.y(h.half(h.thread().major))}};
}

/// Where that leader goes through the lower edge of the client's part, which is left open there.
OpenStretch open_for_leader(const Drawing& d) {
  const Path leader = thread_leader(d);
  const double part = (leader.front().y - d.y(client_part(d.section).radius)) / (leader.front().y - leader.back().y);
  const Length x = leader.front().x + part * (leader.back().x - leader.front().x);
  return {x - 1.2 * mm, x + 1.2 * mm};
}

/// The frames that limit the stud's axis, with their numbers: one below the other, their right end at `right`.
void draw_axis_frames(Drawing& d, Length right, Length top) {
  const Length width =
      std::max(tolerance_frame_width(d.canvas, d.words.position), tolerance_frame_width(d.canvas, d.words.lean));
  const bool rounded = is_rounded(d.dossier);
  const auto number = [&](Check check, Length y) {
    balloon(d.canvas, {right - width - 1 * mm - balloon_radius, y + frame_height / 2}, number_of(check));
  };
  tolerance_frame(d.canvas, {right - width, top}, width, rounded ? Tolerated::run_out : Tolerated::position,
                  d.words.position, "A");
  number(Check::seat_position, top);
  const Length second = top + frame_height;
  tolerance_frame(d.canvas, {right - width, second}, width, Tolerated::parallelism, d.words.lean, "A");
  number(Check::rod, second);
}

/// Under the client's part: the thread, the frames of its axis, the bore where the wood had no room for that.
void draw_callouts(Drawing& d) {
  const Path to_stud = thread_leader(d);
  const Length right = to_stud.front().x, line = to_stud.front().y;
  const TextStyle style = callout_style(d.canvas, d.words.thread, Align::right);
  d.canvas.line({right - d.canvas.width_of(d.words.thread, style), line}, {right, line});
  leader(d.canvas, to_stud);
  d.canvas.text({right, line + 0.9 * mm + d.canvas.capitals(style.size)}, d.words.thread, style);
  const Length top = line + thread_text_height(d.canvas);
  draw_axis_frames(d, to_stud.front().x + 2 * mm - before_seat, top);
  Length baseline = top + 2 * frame_height + 1 * mm + d.canvas.capitals(Lettering::hand);
  if (d.layout.bore) return;
  Length left = right;
  for (const std::string& words : d.words.bore)
    left = std::min(left, right - d.canvas.width_of(words, callout_style(d.canvas, words)) - 1.5 * mm);
  const Length upper = baseline - d.canvas.capitals(Lettering::hand);
  const Length lower = baseline + callout_step * d.canvas.capitals(Lettering::hand);
  d.canvas.line({left, upper}, {left, lower});
  datum_feature(d.canvas, {left, (upper + lower) / 2}, "B");
  for (const std::string& words : d.words.bore) {
    d.canvas.text({right, baseline}, words, callout_style(d.canvas, words, Align::right));
    baseline += callout_step * d.canvas.capitals(Lettering::hand);
  }
}

/// The seat with the frame of its squareness to the bore.
void draw_seat(Drawing& d) {
  const HandleSection& h = d.section;
  const Length y = d.y(d.layout.seat_frame);
  const bool dimensions = d.layout.labels == StationLabels::dimensions;
  const Length from = dimensions ? d.y(d.layout.running) + past_dimension : d.y(h.outside(0 * mm)) + line_gap;
  if (from < y + frame_height / 2) d.canvas.line({h.seat.x, from}, {h.seat.x, y + frame_height / 2});
  const Length width = tolerance_frame_width(d.canvas, d.words.squareness);
  const Length frame = d.left_of_seat(seat_leader + width);
  tolerance_frame(d.canvas, {frame, y - frame_height / 2}, width, Tolerated::perpendicularity, d.words.squareness,
                  "B");
  leader(d.canvas, {{frame + width, y}, {h.seat.x, y}});
  const Length x = frame - 1 * mm - balloon_radius;
  balloon(d.canvas, {x, y}, number_of(Check::squareness));
  const Length half = d.canvas.capitals(Lettering::hand) / 2;
  const TextStyle style = callout_style(d.canvas, d.words.seat, Align::right);
  const Spot below{frame + width, y + frame_height / 2 + 0.8 * mm + 2 * half};
  const bool is_below = stands_below(d.canvas.width_of(d.words.seat, style));
  d.canvas.text(is_below ? below : Spot{x - balloon_radius - 1 * mm, y + half}, d.words.seat, style);
  const std::string& tail = d.dossier.sheet_template.words[Word::tail];
  d.canvas.text({h.x(h.plan.form.length()) + 4 * mm, h.seat.y + half}, tail, callout_style(d.canvas, tail));
}

/// The words of the metal zone behind its end.
void draw_metal_words(Drawing& d) {
  const HandleSection& h = d.section;
  const Length y = d.y(chain_offset(h)), x = h.x(h.plan.stud.embedded) + 2 * mm;
  const TextStyle style = callout_style(d.canvas, d.words.metal_zone);
  const Length width = d.canvas.width_of(d.words.metal_zone, style) + 2 * balloon_radius + 1 * mm;
  clear_below(d.canvas, {x - 0.8 * mm, y - 2.8 * mm, width + 1.6 * mm, 5.6 * mm});
  balloon(d.canvas, {x + balloon_radius, y}, number_of(Check::embedded));
  d.canvas.text({x + 2 * balloon_radius + 1 * mm, y + d.canvas.capitals(style.size) / 2}, d.words.metal_zone, style);
}

/// What is drawn and what the letters are, in a line under it.
void draw_view_title(Drawing& d, const Box& box) {
  const WordTable& w = d.dossier.sheet_template.words;
  const std::string title =
      fmt::format("{} {}. {}. {}. {}", w[Word::section_view], d.layout.scale.text, w[Word::all_lengths_from_seat],
                  w[is_rounded(d.dossier) ? Word::datum_rounded : Word::datum_squared], w[Word::datum_axis]);
  fitted(d.canvas, box, title, {});
}

/// The first of the bore's words over the line that goes on as the leader to the drill's point, the others under it,
/// and there datum B, its axis.
void draw_bore_words(Drawing& d, const BorePlace& place) {
  const Length x = d.section.seat.x + place.box.x + bore_leader, y = d.y(place.reference);
  Canvas canvas = place.enlarged ? d.canvas : d.canvas.not_enlarged();
  const std::string& first = d.words.bore.front();
  const TextStyle style{.face = place.face};
  const Spot end{x + canvas.width_of(first, style), y}, point{d.section.x(d.dossier.plan.depth.tip), d.y(0 * mm)};
  const Spot tail{d.section.x(d.section.end()) + 1.5 * mm, d.y(0 * mm)};
  leader(canvas, place.in_wood ? Path{end, point} : Path{end, {x - 1 * mm, y}, tail, point});
  canvas.text({x, y - 0.9 * mm}, first, style);
  Length baseline = y + 0.9 * mm + canvas.capitals(Lettering::hand);
  for (const std::string& words : d.words.bore | std::views::drop(1)) {
    canvas.text({x, baseline}, words, style);
    baseline += callout_step * canvas.capitals(Lettering::hand);
  }
  if (place.datum_below) return datum_feature_below(d.canvas, {end.x - 3 * mm, y}, "B");
  d.canvas.line({end.x, y - 1.5 * mm}, {end.x, y + 1.5 * mm});
  datum_feature_right(d.canvas, end, "B");
}

/// The box of the bore's words in the wood, or of the leader to them behind the tail.
std::optional<Box> kept_free(const Drawing& d) {
  if (!d.layout.bore) return std::nullopt;
  const HandleSection& h = d.section;
  if (d.layout.bore->in_wood) {
    const Box& box = d.layout.bore->box;
    return Box{h.seat.x + box.x, h.seat.y + box.y, box.width, box.height};
  }
  const Length tip = h.x(h.plan.depth.tip);
  return Box{tip, h.seat.y - leader_room, h.x(h.end()) - tip, 2 * leader_room};
}

}  // namespace

void draw_handle(Canvas& canvas, const Dossier& dossier, std::span<const SheetStation> stations, const Box& box,
                 const DrawingLayout& l) {
  const PrinterCorrection correction = l.true_size ? correction_of(dossier.shop.printer) : PrinterCorrection{};
  const Length aside = (box.width - l.left - l.right) / 2;
  const Length spare = box.height - l.above - l.below;
  // Small pictures stand left of the seat over what is written there, or over all where that is too low.
  const Length words = l.projection + ferrule_words +
                       static_cast<double>(l.ferrule_lines) * callout_step * canvas.capitals(Lettering::hand);
  const bool in_corner = fits(spare / 2 + l.above - words, least_key_pictures);
  const bool over_all = !in_corner && fits(spare, least_key_pictures);
  const Length keys = in_corner  ? spare / 2 + l.above - words
                      : over_all ? std::min(spare, most_key_pictures)
                                 : 0 * mm;
  const Length down = over_all ? keys + (spare - keys) / 2 : spare / 2;
  Drawing d{canvas,
            dossier,
            stations,
            l,
            {.plan = dossier.plan,
             .order = dossier.order,
             .seat = {box.x + aside + l.left, box.y + down + l.above},
             .scale = l.scale.factor,
             .across = correction.across,
             .down = correction.down,
             .left_out = l.left_out},
            drawing_words(dossier)};
  if (keys > 0 * mm) {
    draw_key_pictures(canvas, dossier, {box.x, box.y, d.section.seat.x - box.x, std::min(keys, most_key_pictures)});
  }
  draw_client_part(canvas, d.section, open_for_leader(d));
  draw_section(canvas, d.section, kept_free(d));
  draw_metal_zone(canvas, d.section);
  draw_upper_labels(d);
  if (l.labels == StationLabels::dimensions) draw_running(d);
  draw_metal_words(d);
  draw_projection(d);
  draw_ferrule_words(d);
  draw_callouts(d);
  draw_seat(d);
  const Length title_x = l.title_beside ? d.section.seat.x + 2 * mm : box.x;
  const Length bottom = box.bottom() - (l.true_size ? bar_height : 0 * mm);
  if (l.true_size) draw_bar_across(canvas, dossier, {box.x, bottom, box.width, bar_height});
  draw_view_title(d, {title_x, bottom - view_title_height, box.right() - title_x, view_title_height});
  if (l.bore) draw_bore_words(d, *l.bore);
}

}  // namespace blankwright
