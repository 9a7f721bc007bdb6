#include "sheet/sheet/half_profile.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "sheet/drawing/seat_detail.h"
#include "sheet/frame/actual_size.h"
#include "sheet/mark/draughting.h"
#include "sheet/paper/turner_facts.h"
#include "sheet/sheet/sheets.h"
#include "sheet/sheet/turner_sheet.h"

namespace blankwright {
namespace {

constexpr Length label_head = 6 * mm;   // over the seat, for the labels' head
constexpr Length axis_room = 4 * mm;    // left of the axis, for a joint's letter
constexpr Length keep_width = 48 * mm;  // of what is kept, beside the largest radius: it holds the labels
constexpr Length label_jog = 8 * mm;    // in which lines go over from their stations to their labels
constexpr Length edge_strip = 6 * mm;   // at the right edge, for the order's id and a joint's letter
constexpr Length notes_least = 45 * mm;
constexpr Length profile_gap = 4 * mm;
constexpr Length past_tail = 6 * mm;  // the edge goes on straight
constexpr Length past_axis = 2 * mm;
constexpr Length overlap = 12 * mm;  // of two pages; the joint lies in its middle
constexpr Length hatch_pitch = 4 * mm;
constexpr Length label_pitch = 4.2 * mm, least_label_pitch = 3 * mm;
constexpr double capitals_in_pitch = 0.67;
constexpr TextStyle cut_away_style{.size = Lettering::hand, .align = Align::centre};

/// A stretch of the template on one page, by lengths from the seat.
struct Stretch {
  Length from, to;
  int number = 0;  ///< from 0
  bool first = true, last = true;
};

/// As few as cover the whole length, equally long.
std::vector<Stretch> stretches(Length all, Length room) {
  if (fits(room, all)) return {{0 * mm, all}};
  const int count = static_cast<int>(std::ceil((all - overlap) / (room - overlap) - 1e-9));
  const Length step = (all - overlap) / count;
  std::vector<Stretch> out;
  for (int i = 0; i < count; ++i) {
    out.push_back({i * step, (i + 1) * step + overlap, i, i == 0, i == count - 1});
  }
  return out;
}

/// "A" at the first joint, "AA" at the 27th.
std::string joint_letter(int number) {
  return std::string(static_cast<std::size_t>(number / 26) + 1, static_cast<char>('A' + number % 26));
}

/// The template as it is being drawn on one page. Lengths along and radii are true ones.
struct Drawn {
  Canvas& canvas;
  const Dossier& d;
  PrinterCorrection correction;
  Spot origin;     ///< of the stretch's beginning, at the radius `least`
  Length least;    ///< the radius at the left edge: 0 where the axis is on the sheet
  Length largest;  ///< radius of the form
  Stretch stretch;

  Spot at(Length along, Length radius) const { return correction.from(origin, radius - least, along - stretch.from); }
  Length radius(Length along) const { return d.plan.form.diameter(along) / 2; }
  Length left_x() const { return origin.x; }
  Length right_x() const { return at(stretch.from, largest).x + keep_width; }
  Length top() const { return origin.y; }
  Length bottom() const { return at(stretch.to, largest).y; }
};

/// Corners of the edge in the stretch, seat first; straight on behind the tail.
std::vector<FormPoint> edge(const Drawn& t) {
  const FinishedForm& form = t.d.plan.form;
  std::vector<FormPoint> out;
  for (const Length z : form.places_between(t.stretch.from, std::min(t.stretch.to, form.length()))) {
    out.push_back({z, form.diameter(z)});
  }
  if (t.stretch.to > form.length()) out.push_back({t.stretch.to, form.diameter(form.length())});
  return out;
}

/// The edge in pieces, as far as it lies on the sheet: cut where it goes below the left edge's radius.
std::vector<Path> edge_paths(const Drawn& t) {
  std::vector<Path> paths(1);
  const auto points = edge(t);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Length r = points.at(i).diameter / 2;
    const bool inside = r >= t.least;
    if (i > 0) {
      const Length before = points.at(i - 1).diameter / 2;
      if ((before >= t.least) != inside) {
        const double part = (t.least - before) / (r - before);
        const Length z = points.at(i - 1).along + part * (points.at(i).along - points.at(i - 1).along);
        paths.back().push_back(t.at(z, t.least));
        if (!inside) paths.emplace_back();
      }
    }
    if (inside) paths.back().push_back(t.at(points.at(i).along, r));
  }
  std::erase_if(paths, [](const Path& path) { return path.size() < 2; });
  return paths;
}

/// Where the words CUT AWAY stand, if they find room between the left edge and the edge of the template.
std::optional<Box> cut_away_box(const Drawn& t, const std::string& words) {
  const Length along = t.canvas.width_of(words, cut_away_style) + 2 * mm;
  const Box box{t.left_x() + 1.5 * mm, t.top() + (t.bottom() - t.top() - along) / 2,
                t.canvas.capitals(cut_away_style.size) + 2 * mm, along};
  if (box.y < t.top() || box.bottom() > t.bottom()) return std::nullopt;
  const Length from = t.stretch.from + (box.y - t.top()) / t.correction.down;
  const Length to = t.stretch.from + (box.bottom() - t.top()) / t.correction.down;
  for (const Length z : t.d.plan.form.places_between(from, to)) {
    if (t.at(z, t.radius(z)).x < box.right() + 1 * mm) return std::nullopt;
  }
  return box;
}

/// What falls away: between the left edge and the edge of the template.
void draw_cut_away(const Drawn& t) {
  Path outline;
  for (const FormPoint& p : edge(t)) outline.push_back(t.at(p.along, std::max(p.diameter / 2, t.least)));
  outline.push_back({t.left_x(), t.bottom()});
  outline.push_back({t.left_x(), t.top()});
  std::vector<Path> holes;
  const std::string& words = t.d.sheet_template.words[Word::profile_cut_away];
  if (const auto box = cut_away_box(t, words)) {
    holes.push_back(
        {{box->x, box->y}, {box->right(), box->y}, {box->right(), box->bottom()}, {box->x, box->bottom()}});
    t.canvas.text_upright(
        {box->x + box->width / 2 + t.canvas.capitals(cut_away_style.size) / 2, box->y + box->height / 2}, words,
        cut_away_style);
  }
  t.canvas.strokes(hatching(outline, holes, hatch_pitch), narrow_line);
}

void draw_outline(const Drawn& t) {
  for (Path& path : edge_paths(t)) t.canvas.polyline(std::move(path), wide_line);
  const Length left =
      t.stretch.first ? t.at(t.stretch.from, std::max(t.radius(t.stretch.from), t.least)).x : t.left_x();
  t.canvas.line({left, t.top()}, {t.right_x(), t.top()}, t.stretch.first ? wide_line : narrow_line);
  t.canvas.polyline({{t.right_x(), t.top()}, {t.right_x(), t.bottom()}, {t.left_x(), t.bottom()}}, narrow_line);
  if (t.stretch.first) t.canvas.line({t.left_x(), t.top()}, {left, t.top()});
  const bool axis = t.least == 0 * mm;
  t.canvas.line({t.left_x(), t.top() - past_axis}, {t.left_x(), t.bottom() + past_axis}, narrow_line,
                axis ? Dash::centre : Dash::solid);
  const Length length = t.d.plan.form.length();
  if (!t.stretch.last) return;
  const Spot tail = t.at(length, t.radius(length));
  if (tail.x > t.left_x()) t.canvas.line({t.left_x(), tail.y}, tail, wide_line);
}

/// The line of a joint, interrupted where the labels are, and its letter at both ends.
void draw_joint(const Drawn& t, Length along, int number) {
  const Length y = t.at(along, t.least).y;
  const Length strip = t.right_x() - edge_strip;
  t.canvas.strokes({{{t.left_x() - axis_room, y}, {t.at(along, t.largest).x, y}}, {{strip, y}, {t.right_x(), y}}},
                   narrow_line);
  const TextStyle style{.size = Lettering::hand, .face = Face::bold, .align = Align::right};
  t.canvas.text({t.left_x() - 0.8 * mm, y - 0.8 * mm}, joint_letter(number), style);
  t.canvas.text({t.right_x() - 1 * mm, y - 0.8 * mm}, joint_letter(number), style);
}

void draw_joints(const Drawn& t) {
  if (!t.stretch.first) draw_joint(t, t.stretch.from + overlap / 2, t.stretch.number - 1);
  if (!t.stretch.last) draw_joint(t, t.stretch.to - overlap / 2, t.stretch.number);
}

/// The stations of the stretch with their labels: as many, evenly chosen, as find room.
struct Labels {
  std::vector<FormPoint> stations;
  std::vector<Length> y;
  Length pitch;
};

Labels labels(const Drawn& t) {
  std::vector<FormPoint> all;
  for (const FormPoint& p : t.d.plan.form.stations()) {
    if (p.along >= t.stretch.from && p.along <= t.stretch.to) all.push_back(p);
  }
  const Length low = t.top() + label_pitch / 2, high = t.bottom() - label_pitch / 2;
  for (const Length pitch : {label_pitch, least_label_pitch}) {
    Labels out{{}, {}, pitch};
    // A hair less, so that spread() finds room for as many.
    const auto most = static_cast<std::size_t>((high - low) / pitch - 1e-9) + 1;
    if (all.size() > most && pitch > least_label_pitch) continue;
    if (all.size() > most) {
      for (const std::size_t i : evenly_chosen(all.size(), most)) out.stations.push_back(all.at(i));
    } else {
      out.stations = all;
    }
    std::vector<Length> wished;
    for (const FormPoint& p : out.stations) wished.push_back(t.at(p.along, t.least).y);
    out.y = *spread(wished, pitch, low, high);
    return out;
  }
  return {};
}

void draw_labels(const Drawn& t) {
  const WordTable& w = t.d.sheet_template.words;
  const Printing how = station_printing(t.d);
  const Labels all = labels(t);
  const Length bend = t.at(t.stretch.from, t.largest).x + 1 * mm;
  const Length words_x = bend + label_jog, words_width = t.right_x() - edge_strip - words_x;
  for (std::size_t i = 0; i < all.stations.size(); ++i) {
    const FormPoint& p = all.stations.at(i);
    const Spot on_edge = t.at(p.along, std::max(p.diameter / 2, t.least));
    t.canvas.polyline(
        {on_edge, {bend, on_edge.y}, {words_x - 2 * mm, all.y.at(i)}, {words_x - 0.8 * mm, all.y.at(i)}},
        narrow_line);
    std::string words = fmt::format("{} · Ø{}", drawn_text(t.d, p.along, how), drawn_text(t.d, p.diameter, how));
    if (p.along == 0 * mm) words += " · " + w[Word::seat];
    if (p.along == t.d.plan.form.length()) words += " · " + w[Word::tail];
    t.canvas.text_fitted({words_x, all.y.at(i) - all.pitch / 2, words_width, all.pitch}, words,
                         {.size = lettering_within(capitals_in_pitch * all.pitch)});
  }
  t.canvas.text_fitted({words_x, t.top() - label_head, t.right_x() - words_x, label_head - 1 * mm},
                       fmt::format("{} · {}, {}", w[Word::from_seat], w[Word::diameter],
                                   w[how.system == UnitSystem::metric ? Word::units_metric : Word::units_inch]),
                       {.size = Lettering::note});
}

/// The order's id up the right edge, between the joints' letters.
void draw_id(const Drawn& t) {
  const bool joints = !t.stretch.first || !t.stretch.last;
  const Length room = t.bottom() - t.top() - 2 * (joints ? overlap : 1 * mm);
  TextStyle style{.size = Lettering::machine, .face = Face::bold, .align = Align::centre};
  const std::string& id = t.d.order.id.value;
  while (style.size > Lettering::note && t.canvas.width_of(id, style) > room) style.size = smaller(style.size);
  t.canvas.text_upright(
      {t.right_x() - edge_strip / 2 + t.canvas.capitals(style.size) / 2, t.top() + (t.bottom() - t.top()) / 2}, id,
      style);
}

/// What there is to say besides how a half-profile is used.
struct ProfileNotes {
  bool bars = false;    ///< what the bars of its page say, where nothing else there does
  bool joints = false;  ///< how the sheets of a long one are joined
  Length least{};       ///< the radius at its left edge, where that is not 0
};

Block profile_notes(const Canvas& canvas, const Dossier& d, Length width, const ProfileNotes& notes) {
  const WordTable& w = d.sheet_template.words;
  std::vector<Phrase> phrases = notes.bars ? bar_phrases(d) : std::vector<Phrase>{};
  phrases.push_back(point(w[Word::profile_use]));
  phrases.push_back(point(w[Word::profile_check]));
  if (notes.joints) phrases.push_back(point(w[Word::profile_joints]));
  if (notes.least > 0 * mm) {
    phrases.push_back(point(fmt::format("{}: {}.", w[Word::profile_left_edge],
                                        shown(d, printed(notes.least, size_printing(d, Fineness::measured))))));
  }
  return set_block(canvas, phrases, width);
}

void draw_template(const Drawn& t) {
  draw_cut_away(t);
  draw_outline(t);
  draw_joints(t);
  draw_labels(t);
  draw_id(t);
}

/// What a template takes up beside its largest radius, notes left out.
constexpr Length beside_radius = axis_room + keep_width + profile_gap;

}  // namespace

std::vector<Page> half_profile_pages(const Dossier& d, const FontMetrics& fonts) {
  const PrinterCorrection correction = correction_of(d.shop.printer);
  const Length largest = d.plan.size.largest_diameter / 2;
  std::vector<Page> out;
  for (std::optional<std::vector<Stretch>> all; !all || out.size() < all->size();) {
    Sheet sheet =
        begin_actual_size(d, fonts, Word::profile_sheet, out.empty() ? PageOfKind::first : PageOfKind::further);
    Canvas canvas{sheet.page, fonts, lettering_of(d.sheet_template)};
    const Box& body = sheet.body;
    if (!all)
      all = stretches(d.plan.form.length() + past_tail, (body.height - label_head - past_axis) / correction.down);
    const Length radii = (body.width - beside_radius - notes_least) / correction.across;
    const Length least = fits(radii, largest) ? 0 * mm : largest - radii;
    const Drawn t{canvas, d,       correction,         {body.x + axis_room, body.y + label_head},
                  least,  largest, all->at(out.size())};
    draw_template(t);
    const Length x = t.right_x() + profile_gap;
    const Block notes =
        profile_notes(canvas, d, body.right() - x, {.bars = true, .joints = all->size() > 1, .least = least});
    place_block(canvas, {x, body.y}, notes);
    const Length detail = body.y + notes.height + 2 * profile_gap;
    if (out.empty()) draw_seat_detail(canvas, d, {x, detail, body.right() - x, body.bottom() - detail});
    out.push_back(std::move(sheet.page));
  }
  return out;
}

namespace {

/// Below the targets, whose page has the bars; false where there is no room for it.
bool put_below(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  const PrinterCorrection correction = correction_of(d.shop.printer);
  const Length largest = d.plan.size.largest_diameter / 2, all = d.plan.form.length() + past_tail;
  const Box room = free_room(flow);
  const Length height = profile_gap + part_title_height + label_head + correction.down * all + past_axis;
  const Length notes = room.width - correction.across * largest - beside_radius;
  if (!fits(room.height, height) || notes < notes_least) return false;
  Canvas canvas = canvas_of(flow);
  const Length use = profile_gap + part_title_height + profile_notes(canvas, d, notes, {}).height;
  if (!fits(room.height, use)) return false;
  take_strip(flow, profile_gap);
  const Box title = take_strip(flow, part_title_height);
  draw_part_title(canvas, d, title, Word::profile_sheet);
  const Box body = free_room(flow);
  const Drawn t{canvas, d, correction, {body.x + axis_room, body.y + label_head}, 0 * mm, largest, {0 * mm, all}};
  draw_template(t);
  const Length x = t.right_x() + profile_gap;
  place_block(canvas, {x, body.y}, profile_notes(canvas, d, body.right() - x, {}));
  flow.top = body.bottom();
  return true;
}

}  // namespace

/// None where the drawing of the turner's sheet has the true size: that is the half-profile.
void half_profile_sheets(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  if (draws_true_to_size(d, flow.fonts)) return;
  const bool with_targets = !flow.sheets.empty() && flow.sheets.back().true_size;
  if (!with_targets || !put_below(flow)) add_pages(flow, half_profile_pages(d, flow.fonts));
}

}  // namespace blankwright
