#include "sheet/drawing/drawing_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "plan/figure/figure.h"
#include "sheet/mark/draughting.h"

namespace blankwright {
namespace {

constexpr auto scales = std::to_array<DrawingScale>(
    {{5, "5:1"}, {2, "2:1"}, {1, "1:1"}, {0.5, "1:2"}, {0.2, "1:5"}, {0.1, "1:10"}, {0.05, "1:20"}});

constexpr Length widest_callout = 52 * mm;
constexpr Length behind_tail = 5 * mm;       // the centre line's end and a gap; then its word follows
constexpr Length first_dimension = 10 * mm;  // from the outline
constexpr Length over_stud = projection_line + 5 * mm + view_title_height;  // its dimension and the view's title
constexpr Length farthest_label = 18 * mm;                                  // of a label from its station

/// A way to label the stations.
struct Manner {
  StationLabels labels;
  Length capitals, pitch;
  bool staggered = false;
};
constexpr auto dimension_manners = std::to_array<Manner>({
    {StationLabels::dimensions, 3.5 * mm, 5.9 * mm},
    {StationLabels::dimensions, 3 * mm, 5.7 * mm},
    {StationLabels::dimensions, 2.5 * mm, 5.5 * mm},
    {StationLabels::dimensions, 2.5 * mm, 4.1 * mm, true},
});
constexpr auto number_manners = std::to_array<Manner>({
    {StationLabels::numbers, 2.5 * mm, 4 * mm},
    {StationLabels::numbers, 2 * mm, 3 * mm},
});

/// Widths of words on paper, and the longest labels' for a capital of 1 mm.
struct Widths {
  Length thread, position_frame, projection, metal_zone, bore, ferrule, seat, tail;
  double diameters = 0, lengths = 0, numbers = 0;
};

struct Input {
  const Dossier& dossier;
  std::span<const SheetStation> stations;
  Length width, height;
  Widths words;
  std::size_t bore_lines, ferrule_lines;
};

/// Sizes of the part on paper.
struct Part {
  double s;
  const OrderPlan& plan;
  const Thread& thread;
  Length largest;
  Length stud_radius() const { return s * thread.major / 2; }
  Length seat_radius() const { return s * plan.form.diameter(0 * mm) / 2; }
  Length largest_radius() const { return s * largest / 2; }
  Length radius(Length along) const { return s * plan.form.diameter(along) / 2; }
};

Widths widths_of(const Canvas& canvas, const Dossier& d, std::span<const SheetStation> stations) {
  const DrawingWords words = drawing_words(d);
  const WordTable& w = d.sheet_template.words;
  const auto callout = [&](const std::string& text) { return canvas.width_of(text, callout_style(canvas, text)); };
  Widths out{.thread = callout(words.thread),
             .position_frame = position_frame_width(canvas, words.position),
             .projection = canvas.width_of(words.projection, {.capitals = 3.5 * mm}),
             .metal_zone = callout(words.metal_zone),
             .bore = {},
             .ferrule = callout(words.ferrule),
             .seat = callout(words.seat),
             .tail = callout(w[Word::tail])};
  for (const std::string& line : words.bore) out.bore = std::max(out.bore, callout(line));
  const Printing how = station_printing(d);
  const auto label = [&](const std::string& text) { return canvas.width_of(text, {.capitals = 1 * mm}) / mm; };
  for (const SheetStation& s : stations) {
    out.diameters = std::max(out.diameters, label("Ø" + drawn_text(d, s.diameter, how)));
    out.lengths = std::max(out.lengths, label(drawn_text(d, s.along, how)));
    out.numbers = std::max(
        out.numbers, canvas.width_of(fmt::format("{}", s.number), {.capitals = 1 * mm, .face = Face::bold}) / mm);
  }
  return out;
}

/// The bore's text right of the drill's point and under the axis, if the wood is thick enough there.
bool wood_holds(const Part& part, const Box& box) {
  if (box.right() > part.s * part.plan.form.length() - 1 * mm) return false;
  for (const Length z : part.plan.form.places_between(box.x / part.s, box.right() / part.s)) {
    if (part.radius(z) < box.bottom() + 1.5 * mm) return false;
  }
  return true;
}

std::optional<Box> box_for_bore_text(const Input& in, const Part& part, Length left) {
  const Length width = in.words.bore + 2 * mm;
  const Length height = static_cast<double>(in.bore_lines) * bore_text_step + 1 * mm;
  const Box in_wood{part.s * part.plan.depth.tip + 5 * mm, 1.8 * mm, width, height};
  if (wood_holds(part, in_wood)) return in_wood;
  const Box behind{part.s * part.plan.form.length() + 5 * mm, -height - 2 * mm, width, height};
  const bool under_labels = part.largest_radius() + 2 * mm >= height + 2 * mm;
  if (under_labels && left + behind.right() <= in.width) return behind;
  return std::nullopt;
}

/// Room on both sides of the seat for what hangs there, the bore's text and the labels left out.
void place_sides(DrawingLayout& out, const Input& in, const Part& part) {
  const Widths& w = in.words;
  const Length frame = w.position_frame + 2 * balloon_radius + 2 * mm;
  const Length callouts = std::max({frame, w.bore, w.ferrule, w.thread}) + part.s * spigot_height(in.dossier.order);
  const Length projection = part.s * part.plan.stud.projection + 8 * mm + 2 * balloon_radius + w.projection;
  const Length seat = w.seat + datum_feature_width + 2 * balloon_radius + 3 * mm;
  out.left = std::max({callouts, projection, seat}) + 4 * mm;
  const Length metal =
      part.s * part.plan.stud.embedded + metal_words_gap + 2 * balloon_radius + 2 * mm + w.metal_zone;
  out.right = std::max(part.s * part.plan.form.length() + behind_tail + w.tail, metal);
}

/// What stands over the axis.
void place_above(DrawingLayout& out, const Input& in, const Part& part) {
  // Over the outline, and over the dimension of the projection, which may reach beyond the seat.
  out.label_base =
      std::max(part.largest_radius() + 3 * mm, part.stud_radius() + projection_line + 2 * mm) + out.jog + number_gap;
  const bool dimensions = out.labels == StationLabels::dimensions;
  out.label_length = (dimensions ? in.words.diameters : in.words.numbers) * out.capitals;
  Length top = out.label_base + out.label_length + 0.5 * mm;
  if (dimensions) top += balloon_gap + 2 * balloon_radius;
  if (out.staggered) top += stagger;
  out.above = std::max(top, part.stud_radius() + over_stud);
}

/// What stands under it; `bore_lines` of the bore's text hang under the stud.
void place_below(DrawingLayout& out, const Input& in, const Part& part, std::size_t bore_lines) {
  out.thread_line = part.stud_radius() + 3.5 * mm;
  const Length bottom =
      out.thread_line + 4.5 * mm + frame_height + static_cast<double>(bore_lines + in.ferrule_lines) * bore_text_step;
  out.datum = std::max(part.seat_radius() + 4 * mm, bottom + 1 * mm + 2.6 * mm);
  out.running = std::max(part.largest_radius() + first_dimension, out.datum + 4.5 * mm);
  out.below = out.running + 1 * mm;
  if (out.labels == StationLabels::dimensions) out.below += 1.5 * mm + out.jog + in.words.lengths * out.capitals;
}

/// Puts the labels beside each other; false where they cannot be told apart.
bool place_labels(DrawingLayout& out, const Input& in, const Manner& manner, std::size_t count) {
  out.labels = manner.labels;
  out.capitals = manner.capitals;
  out.staggered = manner.staggered;
  out.labelled = evenly_chosen(in.stations.size(), count);
  std::vector<Length> wished;
  for (const std::size_t i : out.labelled) wished.push_back(out.scale.factor * in.stations[i].along);
  auto places = spread(wished, manner.pitch, 0 * mm, in.width - out.left - 3 * mm);
  if (!places) return false;
  Length farthest;
  for (std::size_t i = 0; i < wished.size(); ++i) farthest = std::max(farthest, abs(places->at(i) - wished.at(i)));
  if (farthest > farthest_label) return false;
  out.label_x = std::move(*places);
  out.jog = farthest < 0.01 * mm ? 0 * mm : std::clamp(0.6 * farthest, 2 * mm, 10 * mm);
  return true;
}

std::optional<DrawingLayout> layout_at(const Input& in, const DrawingScale& scale, const Manner& manner,
                                       std::size_t count) {
  const Part part{scale.factor, in.dossier.plan, in.dossier.order.stud.thread.value, largest_drawn(in.dossier)};
  const auto finds_room = [&](const DrawingLayout& l) {
    return l.left + l.right <= in.width && l.above + l.below <= in.height;
  };
  DrawingLayout out;
  out.scale = scale;
  place_sides(out, in, part);
  if (out.left + out.right > in.width || !place_labels(out, in, manner, count)) return std::nullopt;
  out.right = std::max(out.right, out.label_x.back() + 3 * mm);
  place_above(out, in, part);
  place_below(out, in, part, 0);
  if (!finds_room(out)) return std::nullopt;  // looking for a place in the wood takes longest
  out.bore_text = box_for_bore_text(in, part, out.left);
  if (out.bore_text) out.right = std::max(out.right, out.bore_text->right());
  if (!out.bore_text) place_below(out, in, part, in.bore_lines);
  return finds_room(out) ? std::optional{std::move(out)} : std::nullopt;
}

}  // namespace

std::span<const DrawingScale> drawing_scales() { return scales; }

TextStyle callout_style(const Canvas& canvas, std::string_view words, Align align) {
  TextStyle style{.capitals = callout_capitals, .align = align};
  const Length width = canvas.width_of(words, style);
  if (width > widest_callout) style.capitals = widest_callout / width * style.capitals;
  return style;
}

DrawingWords drawing_words(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const OrderPlan& plan = d.plan;
  const auto figure = [&](Figure f, Length length) { return drawn_text(d, length, figure_printing(d, f)); };
  const Printing measured = size_printing(d, Fineness::measured);
  DrawingWords out;
  out.thread = fmt::format("{} {} × {}", w[Word::stud], d.order.stud.thread.value.designation,
                           figure(Figure::stud_cut_length, plan.stud.cut_length));
  // Of a coaxial pair the runout is the diameter of the position.
  out.position = "Ø" + (plan.rounded ? figure(Figure::rounded_runout, plan.rounded->runout)
                                     : figure(Figure::centring_seat_position, 2 * plan.centring.seat_offset));
  out.projection = figure(Figure::stud_projection, plan.stud.projection);
  out.metal_zone = fmt::format("{} {}", w[Word::metal_zone], figure(Figure::stud_embedded, plan.stud.embedded));
  out.bore = {fmt::format("{} Ø{} – {} {}", w[Word::bore], drawn_text(d, plan.bore.drill.diameter, measured),
                          figure(Figure::bore_depth, plan.depth.full), w[Word::deep]),
              fmt::format("{} {}", w[Word::reservoir], drawn_text(d, d.shop.boring.reservoir.value, measured))};
  const SeatFacts& seat = d.order.seat;
  out.seat = w[Word::seat];
  if (seat.diameter && seat.height) {
    const bool spigot = seat.form.value == SeatForm::spigot;
    const std::string diameter = drawn_text(d, seat.diameter->value, measured);
    const std::string height = drawn_text(d, seat.height->value, measured);
    out.seat += spigot ? fmt::format(", {} Ø{} × {}", w[Word::spigot], diameter, height)
                       : fmt::format(", {} Ø{} – {} {}", w[Word::recess], diameter, height, w[Word::deep]);
  }
  if (d.order.ferrule) {
    const FerruleFacts& ferrule = *d.order.ferrule;
    const bool glued = ferrule.fit.value == FerruleFit::glued;
    const std::string wood =
        ferrule.inside_diameter
            ? fmt::format("{} Ø{}", w[Word::ferrule_wood], drawn_text(d, ferrule.inside_diameter->value, measured))
            : w[Word::ferrule_wood_fitted];
    out.ferrule = fmt::format(
        "{} Ø{} × {}, {}, {}", w[Word::ferrule], drawn_text(d, ferrule.outside_diameter.value, measured),
        drawn_text(d, ferrule.length.value, measured), w[glued ? Word::ferrule_glued : Word::ferrule_pressed], wood);
  }
  return out;
}

Length largest_drawn(const Dossier& d) {
  const Length form = d.plan.size.largest_diameter;
  return d.order.ferrule ? std::max(form, d.order.ferrule->outside_diameter.value) : form;
}

Length spigot_height(const Order& order) {
  const bool spigot = order.seat.form.value == SeatForm::spigot && order.seat.height;
  return spigot ? order.seat.height->value : 0 * mm;
}

std::optional<DrawingLayout> drawing_layout(const Canvas& canvas, const Dossier& dossier,
                                            std::span<const SheetStation> stations, Length width, Length height) {
  const DrawingWords words = drawing_words(dossier);
  const Input in{dossier,
                 stations,
                 width,
                 height,
                 widths_of(canvas, dossier, stations),
                 words.bore.size(),
                 words.ferrule.empty() ? 0U : 1U};
  for (const DrawingScale& scale : scales) {
    for (const Manner& manner : dimension_manners) {
      if (auto found = layout_at(in, scale, manner, stations.size())) return found;
    }
  }
  for (const DrawingScale& scale : scales) {
    for (std::size_t count = stations.size();; count = std::max<std::size_t>(2, count * 2 / 3)) {
      for (const Manner& manner : number_manners) {
        if (auto found = layout_at(in, scale, manner, count)) return found;
      }
      if (count == 2) break;
    }
  }
  return std::nullopt;
}

}  // namespace blankwright
