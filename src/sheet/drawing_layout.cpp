#include "sheet/drawing_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "sheet/draughting.h"

namespace blankwright {
namespace {

constexpr auto scales = std::to_array<DrawingScale>(
    {{5, "5:1"}, {2, "2:1"}, {1, "1:1"}, {0.5, "1:2"}, {0.2, "1:5"}, {0.1, "1:10"}, {0.05, "1:20"}});

constexpr Length right_room = 9 * mm;           // behind the tail: the centre line's end and a word
constexpr Length first_dimension = 10 * mm;     // from the outline
constexpr Length over_stud = 15 * mm + view_title_height;  // its dimension and the view's title
constexpr Length farthest_label = 12 * mm;      // of a label from its station

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

struct Input {
  const Canvas& canvas;
  const Dossier& dossier;
  std::span<const SheetStation> stations;
  Length width, height;
};

/// Sizes of the part on paper.
struct Part {
  double s;
  const OrderPlan& plan;
  const Thread& thread;
  Length stud_radius() const { return s * thread.major / 2; }
  Length seat_radius() const { return s * plan.form.diameter(0 * mm) / 2; }
  Length largest_radius() const { return s * plan.size.largest_diameter / 2; }
  Length radius(Length along) const { return s * plan.form.diameter(along) / 2; }
};

Length widest(const Canvas& canvas, const std::vector<std::string>& lines, Length capitals) {
  Length out;
  for (const std::string& line : lines) out = std::max(out, canvas.width_of(line, {.capitals = capitals}));
  return out;
}

std::vector<std::string> station_labels(const Input& in, StationLabels labels) {
  std::vector<std::string> out;
  const Printing how = station_printing(in.dossier);
  for (const SheetStation& s : in.stations) {
    out.push_back(labels == StationLabels::numbers ? fmt::format("{}", s.number)
                                                   : "Ø" + drawn_number(s.diameter, how));
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

std::optional<Box> box_for_bore_text(const Input& in, const Part& part, const DrawingWords& words, Length left) {
  const Length width = widest(in.canvas, words.bore, callout_style.capitals) + 2 * mm;
  const Length height = static_cast<double>(words.bore.size()) * bore_text_step + 1 * mm;
  const Box in_wood{part.s * part.plan.depth.tip + 5 * mm, 1.8 * mm, width, height};
  if (wood_holds(part, in_wood)) return in_wood;
  const Box behind{part.s * part.plan.form.length() + 5 * mm, -height - 2 * mm, width, height};
  const bool under_labels = part.largest_radius() + 2 * mm >= height + 2 * mm;
  if (under_labels && left + behind.right() <= in.width) return behind;
  return std::nullopt;
}

/// Room for what hangs on the left of the seat, from the stud downwards and along it to the left.
Length left_room(const Input& in, const Part& part, const DrawingWords& words) {
  const Canvas& canvas = in.canvas;
  const Length frame = position_frame_width(canvas, words.position) + 2 * balloon_radius + 2 * mm;
  const Length bore = widest(canvas, words.bore, callout_style.capitals);
  const Length projection = part.s * part.plan.stud.projection + 8 * mm + 2 * balloon_radius +
                            canvas.width_of(words.projection, {.capitals = 3.5 * mm});
  return std::max({frame, bore, projection, canvas.width_of(words.thread, callout_style), 28 * mm}) + 4 * mm;
}

void place_left(DrawingLayout& out, const Part& part, const DrawingWords& words) {
  out.thread_line = part.stud_radius() + 3.5 * mm;
  Length bottom = out.thread_line + 4.5 * mm + frame_height;
  if (!out.bore_text) bottom += static_cast<double>(words.bore.size()) * bore_text_step;
  out.datum = std::max(part.seat_radius() + 4 * mm, bottom + 1 * mm + 2.6 * mm);
}

/// Puts the labels beside each other; false where they cannot be told apart.
bool place_labels(DrawingLayout& out, const Input& in, const Manner& manner, int every) {
  out.labels = manner.labels;
  out.capitals = manner.capitals;
  out.staggered = manner.staggered;
  out.every = every;
  std::vector<Length> wished;
  for (std::size_t i = 0; i < in.stations.size(); i += static_cast<std::size_t>(every)) {
    wished.push_back(out.scale.factor * in.stations[i].along);
  }
  auto places = spread(wished, manner.pitch, 0 * mm, in.width - out.left - 3 * mm);
  if (!places) return false;
  Length farthest;
  for (std::size_t i = 0; i < wished.size(); ++i) farthest = std::max(farthest, abs(places->at(i) - wished.at(i)));
  if (manner.labels == StationLabels::dimensions && farthest > farthest_label) return false;
  out.label_x = std::move(*places);
  out.jog = farthest < 0.01 * mm ? 0 * mm : std::clamp(0.6 * farthest, 2 * mm, 8 * mm);
  return true;
}

std::optional<DrawingLayout> layout_at(const Input& in, const DrawingScale& scale, const Manner& manner, int every) {
  const Part part{scale.factor, in.dossier.plan, in.dossier.order.stud.thread.value};
  const DrawingWords words = drawing_words(in.dossier);
  DrawingLayout out;
  out.scale = scale;
  out.left = left_room(in, part, words);
  out.bore_text = box_for_bore_text(in, part, words, out.left);
  place_left(out, part, words);
  const Length metal_words = scale.factor * part.plan.stud.embedded + metal_words_gap + 2 * balloon_radius + 2 * mm +
                             in.canvas.width_of(words.metal_zone, callout_style);
  out.right = std::max(scale.factor * part.plan.form.length() + right_room, metal_words);
  if (out.bore_text) out.right = std::max(out.right, out.bore_text->right());
  if (out.left + out.right > in.width) return std::nullopt;
  if (!place_labels(out, in, manner, every)) return std::nullopt;
  out.right = std::max(out.right, out.label_x.back() + 3 * mm);

  out.label_base = part.largest_radius() + 3 * mm + out.jog + number_gap;
  out.label_length = widest(in.canvas, station_labels(in, manner.labels), manner.capitals);
  Length top = out.label_base + out.label_length + 0.5 * mm;
  if (manner.labels == StationLabels::dimensions) top += balloon_gap + 2 * balloon_radius;
  if (manner.staggered) top += stagger;
  out.above = std::max(top, part.stud_radius() + over_stud);
  out.running = std::max(part.largest_radius() + first_dimension, out.datum + 4.5 * mm);
  out.below = out.running + 1 * mm;
  if (manner.labels == StationLabels::dimensions) {
    const std::vector<std::string> farthest{drawn_number(part.plan.form.length(), station_printing(in.dossier)),
                                            drawn_number(in.stations.back().along / 3, station_printing(in.dossier))};
    out.below += 1.5 * mm + out.jog + widest(in.canvas, farthest, manner.capitals);
  }
  if (out.above + out.below > in.height) return std::nullopt;
  return out;
}

}  // namespace

std::span<const DrawingScale> drawing_scales() { return scales; }

DrawingWords drawing_words(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const OrderPlan& plan = d.plan;
  const auto figure = [&](Figure f, Length length) { return drawn_number(length, figure_printing(d, f)); };
  const Printing measured{d.shop.units.value, Round::nearest, Fineness::measured};
  DrawingWords out;
  out.thread = fmt::format("{} – {} {}", d.order.stud.thread.value.designation,
                           figure(Figure::stud_embedded, plan.stud.embedded), w[Word::deep]);
  out.position = "Ø" + figure(Figure::centring_seat_position, 2 * plan.centring.seat_offset);
  out.projection = figure(Figure::stud_projection, plan.stud.projection);
  out.metal_zone = fmt::format("{} {}", w[Word::metal_zone], drawn_number(plan.stud.embedded, metal_printing(d)));
  out.bore = {fmt::format("{} Ø{} – {} {}", w[Word::bore], drawn_number(plan.bore.drill.diameter, measured),
                          figure(Figure::bore_depth, plan.depth.full), w[Word::deep]),
              fmt::format("{} {}", w[Word::reservoir], drawn_number(d.shop.boring.reservoir.value, measured))};
  return out;
}

std::optional<DrawingLayout> drawing_layout(const Canvas& canvas, const Dossier& dossier,
                                            std::span<const SheetStation> stations, Length width, Length height) {
  const Input in{canvas, dossier, stations, width, height};
  for (const DrawingScale& scale : scales) {
    for (const Manner& manner : dimension_manners) {
      if (auto found = layout_at(in, scale, manner, 1)) return found;
    }
  }
  for (const int every : {1, 2, 5, 10, 20, 50}) {
    for (const DrawingScale& scale : scales) {
      for (const Manner& manner : number_manners) {
        if (auto found = layout_at(in, scale, manner, every)) return found;
      }
    }
  }
  return std::nullopt;
}

}  // namespace blankwright
