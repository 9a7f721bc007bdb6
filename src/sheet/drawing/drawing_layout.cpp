#include "sheet/drawing/drawing_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "plan/figure/figure.h"
#include "sheet/drawing/client_part.h"
#include "sheet/mark/draughting.h"

namespace blankwright {
namespace {

constexpr auto scales = std::to_array<DrawingScale>(
    {{5, "5:1"}, {2, "2:1"}, {1, "1:1"}, {0.5, "1:2"}, {0.2, "1:5"}, {0.1, "1:10"}, {0.05, "1:20"}, {0.02, "1:50"}});

constexpr Length widest_callout = 52 * mm;
constexpr Length behind_tail = 5 * mm;       // the centre line's end and a gap; then its word follows
constexpr Length first_dimension = 10 * mm;  // from the outline
constexpr Length beside_seat = 3 * mm;       // of the first label from the seat's extension line
constexpr Length farthest_label = 18 * mm;   // of a label from its station

/// A way to label the stations.
struct Manner {
  StationLabels labels;
  Lettering size;
  Length pitch;
  bool staggered = false;
};
constexpr auto dimension_manners = std::to_array<Manner>({
    {StationLabels::dimensions, Lettering::machine, 5.9 * mm},
    {StationLabels::dimensions, Lettering::hand, 5.5 * mm},
    {StationLabels::dimensions, Lettering::hand, 4.1 * mm, true},
});
constexpr auto number_manners = std::to_array<Manner>({
    {StationLabels::numbers, Lettering::hand, 4 * mm},
    {StationLabels::numbers, Lettering::note, 3 * mm},
});

/// Widths of words on paper, and the longest labels' by the height of their capitals.
struct Widths {
  Length thread, frames, squareness, projection, metal_zone, bore, ferrule, seat, tail;
  double diameters = 0, lengths = 0, numbers = 0;
};

struct Input {
  const Canvas& canvas;
  const Dossier& dossier;
  std::span<const SheetStation> stations;
  Length width, height;
  Widths words;
  std::size_t bore_lines, ferrule_lines;
};

/// The part on paper, its seat at 0.
HandleSection section_at(const Input& in, double scale, const std::optional<LeftOut>& left_out) {
  return {.plan = in.dossier.plan, .order = in.dossier.order, .seat = {}, .scale = scale, .left_out = left_out};
}

Widths widths_of(const Canvas& canvas, const Dossier& d, std::span<const SheetStation> stations) {
  const DrawingWords words = drawing_words(d);
  const WordTable& w = d.sheet_template.words;
  const auto callout = [&](const std::string& text) { return canvas.width_of(text, callout_style(canvas, text)); };
  Widths out{
      .thread = callout(words.thread),
      .frames = std::max(tolerance_frame_width(canvas, words.position), tolerance_frame_width(canvas, words.lean)),
      .squareness = tolerance_frame_width(canvas, words.squareness),
      .projection = canvas.width_of(words.projection, {.size = Lettering::machine}),
      .metal_zone = callout(words.metal_zone),
      .bore = {},
      .ferrule = {},
      .seat = callout(words.seat),
      .tail = callout(w[Word::tail])};
  for (const std::string& line : words.bore) out.bore = std::max(out.bore, callout(line));
  for (const std::string& line : words.ferrule) out.ferrule = std::max(out.ferrule, callout(line));
  const Printing how = station_printing(d);
  const Length capitals = canvas.capitals(Lettering::hand);
  const auto label = [&](const std::string& text) { return canvas.width_of(text, {}) / capitals; };
  for (const SheetStation& s : stations) {
    out.diameters = std::max(out.diameters, label("Ø" + drawn_text(d, s.diameter, how)));
    out.lengths = std::max(out.lengths, label(drawn_text(d, s.along, how)));
    out.numbers =
        std::max(out.numbers, canvas.width_of(fmt::format("{}", s.number), {.face = Face::bold}) / capitals);
  }
  return out;
}

/// The bore's words right of the drill's point, on its axis, if the wood is thick enough there: with datum B under
/// them or, where it is thinner, behind them.
std::optional<BorePlace> bore_in_wood(const Input& in, const HandleSection& part) {
  const Length tip = part.x(part.plan.depth.tip), words = bore_leader + in.words.bore + 1 * mm;
  const Length end = part.left_out ? part.left_out->from : part.end();
  for (const bool below : {true, false}) {
    const Length under = below ? under_reference : over_reference;
    const Box box{tip, -over_reference, words + (below ? 0 * mm : datum_feature_width), over_reference + under};
    if (box.right() > part.x(end) - 1 * mm) continue;
    const auto places = part.plan.form.places_between(box.x / part.scale, box.right() / part.scale);
    const auto is_thick = [&](Length z) { return part.radius(z) >= box.bottom() + 1.5 * mm; };
    if (std::ranges::all_of(places, is_thick)) return BorePlace{box, 0 * mm, true, below};
  }
  return std::nullopt;
}

Length metal_words_end(const Input& in, const HandleSection& part) {
  return part.x(part.plan.stud.embedded) + 2 * balloon_radius + 4 * mm + in.words.metal_zone;
}

/// Right of the tail under its word, where the words of the metal zone do not reach.
std::optional<BorePlace> bore_behind_tail(const Input& in, const HandleSection& part) {
  const Length x = part.x(part.end()) + behind_tail, y = 2 * mm;
  const Box box{x, y, bore_leader + in.words.bore + 1 * mm, over_reference + under_reference};
  const bool over_metal = box.bottom() + 3.5 * mm <= chain_offset(part);
  if (!over_metal && metal_words_end(in, part) > box.x + bore_leader) return std::nullopt;
  return BorePlace{box, y + over_reference, false, true};
}

/// Room on both sides of the seat for what hangs there, the bore's words and the labels left out.
void place_sides(DrawingLayout& out, const Input& in, const HandleSection& part) {
  const Widths& w = in.words;
  const Length frames = w.frames + 2 * balloon_radius + 2 * mm;
  const Length callouts = std::max({frames, w.bore, w.ferrule, w.thread}) - part.x(-spigot_height(in.dossier.order));
  const Length projection = 8 * mm + 2 * balloon_radius + w.projection - part.stud_tip();
  const Length seat = seat_leader + w.squareness + 2 * balloon_radius + 3 * mm;
  const Length seat_words = stands_below(w.seat) ? 0 * mm : w.seat;
  out.left =
      std::max({callouts, projection, seat + seat_words, seat_leader + w.seat, client_part(part).length + 4 * mm}) +
      4 * mm;
  out.right = std::max(part.x(part.end()) + behind_tail + w.tail, metal_words_end(in, part));
}

Length stud_radius(const HandleSection& part) { return part.half(part.thread().major); }

/// What stands over the axis.
void place_above(DrawingLayout& out, const Input& in, const HandleSection& part) {
  out.projection = std::max(stud_radius(part), client_part(part).radius) + projection_line;
  // Over the outline, and over the dimension of the projection, which may reach beyond the seat.
  out.label_base =
      std::max(part.half(largest_drawn(in.dossier)) + 3 * mm, out.projection + 2 * mm) + out.jog + number_gap;
  const bool dimensions = out.labels == StationLabels::dimensions;
  out.label_length = (dimensions ? in.words.diameters : in.words.numbers) * in.canvas.capitals(out.size);
  Length top = out.label_base + out.label_length + 0.5 * mm;
  if (dimensions) top += balloon_gap + 2 * balloon_radius;
  if (out.staggered) top += stagger;
  const Length ferrule =
      in.ferrule_lines == 0 ? 0 * mm : ferrule_words + static_cast<double>(in.ferrule_lines) * bore_text_step;
  out.above = std::max(top, out.projection + std::max(5 * mm, ferrule));
}

/// What stands under it; `bore_lines` of the bore's words hang under the stud.
void place_below(DrawingLayout& out, const Input& in, const HandleSection& part, std::size_t bore_lines) {
  out.thread_line = std::max(stud_radius(part), client_part(part).radius) + 4 * mm;
  const Length bottom =
      out.thread_line + thread_text_height + 2 * frame_height + static_cast<double>(bore_lines) * bore_text_step;
  out.seat_frame = std::max(part.radius(0 * mm) + 4 * mm, bottom + 1 * mm + frame_height / 2);
  out.running = std::max(part.half(largest_drawn(in.dossier)) + first_dimension, chain_offset(part) + 6 * mm);
  Length lengths = out.running + 1 * mm;
  if (out.labels == StationLabels::dimensions)
    lengths += 1.5 * mm + out.jog + in.words.lengths * in.canvas.capitals(out.size);
  const Length seat_words = stands_below(in.words.seat) ? bore_text_step : 0 * mm;
  const Length frames = out.seat_frame + frame_height / 2 + seat_words + 0.5 * mm;
  out.title_beside = (in.width - out.left + out.right) / 2 > least_view_title;
  out.below = out.title_beside ? std::max(frames, lengths + view_title_height)
                               : std::max(frames, lengths) + view_title_height;
}

/// Puts the labels beside each other; false where they cannot be told apart.
bool place_labels(DrawingLayout& out, const Input& in, const HandleSection& part, const Manner& manner,
                  std::size_t count) {
  out.labels = manner.labels;
  out.size = manner.size;
  out.staggered = manner.staggered;
  out.labelled = evenly_chosen(in.stations.size(), count);
  std::vector<Length> wished;
  for (const std::size_t i : out.labelled) wished.push_back(part.x(in.stations[i].along));
  auto places = spread(wished, manner.pitch, beside_seat, in.width - out.left - 3 * mm);
  if (!places) return false;
  Length farthest;
  for (std::size_t i = 0; i < wished.size(); ++i) farthest = std::max(farthest, abs(places->at(i) - wished.at(i)));
  if (farthest > farthest_label) return false;
  out.label_x = std::move(*places);
  out.jog = farthest < 0.01 * mm ? 0 * mm : std::clamp(0.6 * farthest, 2 * mm, 10 * mm);
  return true;
}

/// Whether a leader goes to the bore from its words, or they only stand under the stud: where nothing else finds
/// room.
enum class Bore { led_to, named };

std::optional<DrawingLayout> layout_at(const Input& in, const DrawingScale& scale, const Manner& manner,
                                       std::size_t count, const std::optional<LeftOut>& left_out = {}) {
  const HandleSection part = section_at(in, scale.factor, left_out);
  const auto finds_room = [&](const DrawingLayout& l) {
    return l.left + l.right <= in.width && l.above + l.below <= in.height;
  };
  DrawingLayout out;
  out.scale = scale;
  out.left_out = left_out;
  out.ferrule_lines = in.ferrule_lines;
  place_sides(out, in, part);
  if (out.left + out.right > in.width || !place_labels(out, in, part, manner, count)) return std::nullopt;
  out.right = std::max(out.right, out.label_x.back() + 3 * mm);
  place_above(out, in, part);
  place_below(out, in, part, 0);
  if (!finds_room(out)) return std::nullopt;  // looking for a place in the wood takes longest
  out.bore = bore_in_wood(in, part);
  if (!out.bore) {
    const DrawingLayout without = out;
    if ((out.bore = bore_behind_tail(in, part))) {
      out.right = std::max(out.right, out.bore->box.right());
      out.below = std::max(out.below, out.bore->box.bottom() + view_title_height);
    }
    if (!finds_room(out)) out = without;
  }
  if (!out.bore) place_below(out, in, part, in.bore_lines);
  return finds_room(out) ? std::optional{std::move(out)} : std::nullopt;
}

/// What has to be left out of the longest stretch between two stations behind the bore, so that the handle finds room
/// at that scale; none where that stretch is too short for it, or nothing has to be.
std::optional<LeftOut> left_out_at(const Input& in, double scale) {
  constexpr Length kept = 4 * mm;  // on paper, on both sides of the break
  const HandleSection whole_part = section_at(in, scale, {});
  DrawingLayout sides;
  place_sides(sides, in, whole_part);
  const Length too_long = sides.left + sides.right - in.width;
  if (too_long <= 0 * mm) return std::nullopt;
  LeftOut longest{};
  const auto& stations = in.dossier.plan.form.stations();
  for (std::size_t i = 1; i < stations.size(); ++i) {
    const LeftOut between{std::max(stations.at(i - 1).along, in.dossier.plan.depth.tip) + kept / scale,
                          stations.at(i).along - kept / scale};
    if (between.to - between.from > longest.to - longest.from) longest = between;
  }
  const Length wanted = (too_long + break_gap + 0.01 * mm) / scale, most = longest.to - longest.from;
  if (most < wanted) return std::nullopt;
  const Length middle = (longest.from + longest.to) / 2;
  return LeftOut{middle - wanted / 2, middle + wanted / 2};
}

/// The largest scale at which both dimensions of every station find room, a stretch left out where that helps.
std::optional<DrawingLayout> with_dimensions(const Input& in) {
  for (const DrawingScale& scale : scales) {
    for (const Manner& manner : dimension_manners) {
      if (auto found = layout_at(in, scale, manner, in.stations.size())) return found;
    }
    const auto left_out = scale.factor > 1 ? std::nullopt : left_out_at(in, scale.factor);
    if (!left_out) continue;
    for (const Manner& manner : dimension_manners) {
      if (auto found = layout_at(in, scale, manner, in.stations.size(), left_out)) return found;
    }
  }
  return std::nullopt;
}

/// "Ø0.55/100": the axis of the stud within a cylinder of that width over that length.
std::string lean_text(const Dossier& d) {
  const Printed lean = printed_figure(d, Figure::centring_tilt);
  if (!lean.per) return shown(d, lean);
  return fmt::format("Ø{}/{}", shown(d, lean.amounts.front().number), shown(d, lean.per->number));
}

}  // namespace

bool stands_below(Length seat_words) { return seat_words > 12 * mm; }

std::span<const DrawingScale> drawing_scales() { return scales; }

TextStyle callout_style(const Canvas& canvas, std::string_view words, Align align) {
  TextStyle style{.size = Lettering::hand, .align = align};
  const auto too_wide = [&] { return canvas.width_of(words, style) > widest_callout; };
  if (too_wide()) style = narrowed(style);
  if (too_wide()) style.size = Lettering::note;
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
  out.position = plan.rounded ? figure(Figure::rounded_runout, plan.rounded->runout)
                              : "Ø" + figure(Figure::centring_seat_position, 2 * plan.centring.seat_offset);
  out.lean = lean_text(d);
  out.squareness = drawn_at_most(d, d.order.seat.squareness.value);
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
    out.ferrule = {
        fmt::format("{} Ø{} × {}, {}", w[Word::ferrule], drawn_text(d, ferrule.outside_diameter.value, measured),
                    drawn_text(d, ferrule.length.value, measured),
                    w[glued ? Word::ferrule_glued : Word::ferrule_pressed]),
        fmt::format("{}: {}", numbers_under_ferrule(sheet_stations(d)), wood)};
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
  const Input in{canvas,
                 dossier,
                 stations,
                 width,
                 height,
                 widths_of(canvas, dossier, stations),
                 words.bore.size(),
                 words.ferrule.size()};
  std::optional<DrawingLayout> dimensioned = with_dimensions(in);
  // Dimensions on a drawing far smaller than it could be are no help.
  for (const DrawingScale& scale : scales) {
    if (dimensioned && scale.factor <= 2 * dimensioned->scale.factor) return dimensioned;
    if (!dimensioned) break;
    for (const Manner& manner : number_manners) {
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
