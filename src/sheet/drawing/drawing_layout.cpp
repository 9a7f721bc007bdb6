#include "sheet/drawing/drawing_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "plan/figure/figure.h"
#include "sheet/drawing/client_part.h"
#include "sheet/drawing/drawing_words.h"
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

/// The bore's words in that face, with the template's lettering or without: how long they are, and what they take up
/// over and under the line that their leader goes on from, datum B among it.
struct BoreWords {
  Face face = Face::regular;
  bool enlarged = true;
  Length width, over, under;
};
BoreWords bore_words(const Canvas& canvas, const std::vector<std::string>& lines, Face face) {
  BoreWords out{face, canvas.is_enlarged(), {}, {}, {}};
  for (const std::string& line : lines) out.width = std::max(out.width, canvas.width_of(line, {.face = face}));
  const Length capitals = canvas.capitals(Lettering::hand);
  out.over = capitals + 1.7 * mm;
  const double below = callout_step * (static_cast<double>(lines.size()) - 1) + 0.5;
  out.under = std::max(0.9 * mm + below * capitals, datum_feature_width + 0.6 * mm);
  return out;
}

/// The same as large as may be first.
std::vector<BoreWords> all_bore_words(const Canvas& canvas, const std::vector<std::string>& lines) {
  Page scratch;
  const Canvas usual{scratch, canvas.fonts()};
  std::vector<BoreWords> out;
  for (const Face face : {Face::regular, Face::narrow}) out.push_back(bore_words(canvas, lines, face));
  if (!canvas.is_enlarged()) return out;
  for (const Face face : {Face::regular, Face::narrow}) out.push_back(bore_words(usual, lines, face));
  return out;
}

struct Input {
  const Canvas& canvas;
  const Dossier& dossier;
  std::span<const SheetStation> stations;
  Length width, height;
  Widths words;
  std::size_t bore_lines, ferrule_lines;
  std::span<const DrawingScale> scales;
  std::vector<BoreWords> bore_words;
};

/// The part on paper, its seat at 0.
HandleSection section_at(const Input& in, double scale, const std::vector<LeftOut>& left_out) {
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
  const Length tip = part.x(part.plan.depth.tip);
  const Length end = part.left_out.empty() ? part.end() : part.left_out.front().from;
  for (const BoreWords& w : in.bore_words) {
    for (const bool below : {true, false}) {
      const Length under = below ? w.under : w.over;
      const Length width = bore_leader + w.width + 1 * mm + (below ? 0 * mm : datum_feature_width);
      const Box box{tip, -w.over, width, w.over + under};
      if (box.right() > part.x(end) - 1 * mm) continue;
      const auto places = part.plan.form.places_between(box.x / part.scale, box.right() / part.scale);
      const auto is_thick = [&](Length z) { return part.radius(z) >= box.bottom() + 1.5 * mm; };
      if (std::ranges::all_of(places, is_thick)) return BorePlace{box, 0 * mm, true, below, w.face, w.enlarged};
    }
  }
  return std::nullopt;
}

Length metal_words_end(const Input& in, const HandleSection& part) {
  return part.x(part.plan.stud.embedded) + 2 * balloon_radius + 4 * mm + in.words.metal_zone;
}

/// Right of the tail: under its word, where the words of the metal zone do not reach, or over it, where no label of a
/// station does.
std::optional<BorePlace> bore_behind_tail(const Input& in, const HandleSection& part, Length last_label) {
  const BoreWords& w = in.bore_words.front();
  const Length x = part.x(part.end()) + behind_tail, y = in.canvas.capitals(Lettering::hand) / 2 + 0.75 * mm;
  Box box{x, y, bore_leader + w.width + 1 * mm, w.over + w.under};
  const bool over_metal = box.bottom() + 3.5 * mm <= chain_offset(part);
  if (!over_metal && metal_words_end(in, part) > box.x + bore_leader) {
    if (last_label + 3 * mm > box.x + bore_leader) return std::nullopt;
    box.y = -y - box.height;
  }
  return BorePlace{.box = box, .reference = box.y + w.over};
}

/// Room on both sides of the seat for what hangs there, the bore's words and the labels left out.
void place_sides(DrawingLayout& out, const Input& in, const HandleSection& part) {
  const Widths& w = in.words;
  const Length frames = w.frames + 2 * balloon_radius + before_seat;
  const Length bore = w.bore + 1.5 * mm + datum_feature_width;
  const Length callouts = std::max({frames, bore, w.ferrule, w.thread}) - part.x(-spigot_height(in.dossier.order));
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
  const Length step = callout_step * in.canvas.capitals(Lettering::hand);
  const Length ferrule =
      in.ferrule_lines == 0 ? 0 * mm : ferrule_words + static_cast<double>(in.ferrule_lines) * step;
  out.above = std::max(top, out.projection + std::max(5 * mm, ferrule));
}

/// What stands under it; `bore_lines` of the bore's words hang under the stud.
void place_below(DrawingLayout& out, const Input& in, const HandleSection& part, std::size_t bore_lines) {
  out.thread_line = std::max(stud_radius(part), client_part(part).radius) + 4 * mm;
  const Length step = callout_step * in.canvas.capitals(Lettering::hand);
  const Length bottom =
      out.thread_line + thread_text_height(in.canvas) + 2 * frame_height + static_cast<double>(bore_lines) * step;
  out.seat_frame = std::max(part.radius(0 * mm) + 4 * mm, bottom + 1 * mm + frame_height / 2);
  out.running = std::max(part.half(largest_drawn(in.dossier)) + first_dimension, chain_offset(part) + 6 * mm);
  Length lengths = out.running + 1 * mm;
  if (out.labels == StationLabels::dimensions)
    lengths += 1.5 * mm + out.jog + in.words.lengths * in.canvas.capitals(out.size);
  const Length seat_words = stands_below(in.words.seat) ? step : 0 * mm;
  const Length frames = out.seat_frame + frame_height / 2 + seat_words + 0.5 * mm;
  out.title_beside = (in.width - out.left + out.right) / 2 > least_view_title;
  out.below = out.title_beside ? std::max(frames, lengths + view_title_height)
                               : std::max(frames, lengths) + view_title_height;
  out.true_size = part.scale == 1 && part.left_out.empty();
  if (out.true_size) out.below += bar_height;
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
                                       std::size_t count, const std::vector<LeftOut>& left_out = {}) {
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
    if ((out.bore = bore_behind_tail(in, part, out.label_x.back()))) {
      out.right = std::max(out.right, out.bore->box.right());
      out.above = std::max(out.above, 0.5 * mm - out.bore->box.y);
      out.below =
          std::max(out.below, out.bore->box.bottom() + view_title_height + (out.true_size ? bar_height : 0 * mm));
    }
    if (!finds_room(out)) out = without;
  }
  if (!out.bore) place_below(out, in, part, in.bore_lines);
  return finds_room(out) ? std::optional{std::move(out)} : std::nullopt;
}

/// What has to be left out between stations behind the bore, so that the handle finds room at that scale: of as few
/// stretches as suffice, the longest ones, of each the same share. Empty where they are too short for it, or nothing
/// has to be left out.
std::vector<LeftOut> left_out_at(const Input& in, double scale) {
  constexpr Length kept = 4 * mm;  // on paper, on both sides of a break
  const HandleSection whole_part = section_at(in, scale, {});
  DrawingLayout sides;
  place_sides(sides, in, whole_part);
  const Length too_long = sides.left + sides.right - in.width;
  if (too_long <= 0 * mm) return {};
  std::vector<LeftOut> all;
  const auto& stations = in.dossier.plan.form.stations();
  for (std::size_t i = 1; i < stations.size(); ++i) {
    const LeftOut between{std::max(stations.at(i - 1).along, in.dossier.plan.depth.tip) + kept / scale,
                          stations.at(i).along - kept / scale};
    if (scale * (between.to - between.from) > 2 * break_gap) all.push_back(between);
  }
  const auto length = [](const LeftOut& one) { return one.to - one.from; };
  std::ranges::stable_sort(all, std::ranges::greater{}, length);
  Length most, wanted = (too_long + 0.01 * mm) / scale;
  for (std::size_t n = 0; n < all.size(); ++n) {
    most += length(all.at(n));
    wanted += break_gap / scale;
    if (most < wanted) continue;
    all.resize(n + 1);
    for (LeftOut& one : all) {
      const Length middle = (one.from + one.to) / 2, half = length(one) / 2 * (wanted / most);
      one = {middle - half, middle + half};
    }
    std::ranges::sort(all, {}, &LeftOut::from);
    return all;
  }
  return {};
}

/// The largest scale at which both dimensions of every station find room, stretches left out where that helps.
std::optional<DrawingLayout> with_dimensions(const Input& in) {
  for (const DrawingScale& scale : in.scales) {
    for (const Manner& manner : dimension_manners) {
      if (auto found = layout_at(in, scale, manner, in.stations.size())) return found;
    }
    const auto left_out = scale.factor > 1 ? std::vector<LeftOut>{} : left_out_at(in, scale.factor);
    if (left_out.empty()) continue;
    for (const Manner& manner : dimension_manners) {
      if (auto found = layout_at(in, scale, manner, in.stations.size(), left_out)) return found;
    }
  }
  return std::nullopt;
}

std::span<const DrawingScale> scales_up_to(double largest) {
  const auto* const first = std::ranges::find_if(scales, [&](const DrawingScale& s) { return s.factor <= largest; });
  return {first, scales.end()};
}

}  // namespace

Length largest_drawn(const Dossier& d) {
  const Length form = d.plan.size.largest_diameter;
  return d.order.ferrule ? std::max(form, d.order.ferrule->outside_diameter.value) : form;
}

Length spigot_height(const Order& order) {
  const bool spigot = order.seat.form.value == SeatForm::spigot && order.seat.height;
  return spigot ? order.seat.height->value : 0 * mm;
}

Length thread_text_height(const Canvas& canvas) { return 1.5 * mm + 1.2 * canvas.capitals(Lettering::hand); }

bool stands_below(Length seat_words) { return seat_words > 12 * mm; }

std::span<const DrawingScale> drawing_scales() { return scales; }

TextStyle callout_style(const Canvas& canvas, std::string_view words, Align align) {
  TextStyle style{.size = Lettering::hand, .align = align};
  const auto too_wide = [&] { return canvas.width_of(words, style) > widest_callout; };
  if (too_wide()) style = narrowed(style);
  if (too_wide()) style.size = Lettering::note;
  return style;
}

std::optional<DrawingLayout> drawing_layout(const Canvas& canvas, const Dossier& dossier,
                                            std::span<const SheetStation> stations, Length width, Length height,
                                            double largest_scale) {
  const DrawingWords words = drawing_words(dossier);
  const Input in{canvas,
                 dossier,
                 stations,
                 width,
                 height,
                 widths_of(canvas, dossier, stations),
                 words.bore.size(),
                 words.ferrule.size(),
                 scales_up_to(largest_scale),
                 all_bore_words(canvas, words.bore)};
  std::optional<DrawingLayout> dimensioned = with_dimensions(in);
  // Dimensions on a drawing far smaller than it could be are no help.
  for (const DrawingScale& scale : in.scales) {
    if (dimensioned && scale.factor <= 2 * dimensioned->scale.factor) return dimensioned;
    if (!dimensioned) break;
    for (const Manner& manner : number_manners) {
      if (auto found = layout_at(in, scale, manner, stations.size())) return found;
    }
  }
  for (const DrawingScale& scale : in.scales) {
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
