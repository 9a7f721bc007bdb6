#include "sheet/drawing/handle_section.h"

#include <algorithm>

#include "plan/tables/threads.h"
#include "sheet/mark/draughting.h"

namespace blankwright {
namespace {

constexpr Length wood_pitch = 2.5 * mm, ferrule_pitch = 1.2 * mm;
constexpr Length least_glue = 0.9 * mm;  // between the middles of two wide lines, so that white shows
constexpr Length past_outline = 3 * mm;
constexpr Length chain_gap = 4 * mm;  // between outline and chain line

/// Where the wood begins round the stud: before the seat with a spigot, behind it with a recess.
Length begin_of_wood(const HandleSection& h) {
  const SeatFacts& seat = h.order.seat;
  if (!seat.height) return 0 * mm;
  return seat.form.value == SeatForm::spigot ? -seat.height->value : seat.height->value;
}

/// Above the axis, from one length to another: the finished form, stepped down to the inside of a ferrule that covers
/// it.
Path upper_edge(const HandleSection& h, Length begin, Length end) {
  Path path;
  Length from = begin;
  if (begin == 0 * mm && h.order.ferrule && h.order.ferrule->inside_diameter) {
    from = std::min(h.order.ferrule->length.value, end);
    const Length wood = h.seat.y - h.half(h.order.ferrule->inside_diameter->value);
    path = {{h.seat.x, wood}, {h.x(from), wood}};
  }
  if (path.empty() || from < end) {
    for (const Length z : h.plan.form.places_between(from, end)) path.push_back({h.x(z), h.seat.y - h.radius(z)});
  }
  return path;
}

Path outline_of(const HandleSection& h, Length begin, Length end) {
  Path path = upper_edge(h, begin, end);
  for (std::size_t i = path.size(); i-- > 0;) path.push_back({path.at(i).x, 2 * h.seat.y - path.at(i).y});
  if (!h.order.seat.diameter || begin > 0 * mm) return path;
  const Length r = h.half(h.order.seat.diameter->value);
  const Length wood = h.x(begin_of_wood(h));
  for (const Spot corner : {Spot{h.seat.x, r}, Spot{wood, r}, Spot{wood, -r}, Spot{h.seat.x, -r}}) {
    path.push_back({corner.x, h.seat.y + corner.y});
  }
  return path;
}

/// The same, open where the view ends: from there below the axis round the seat to there above it.
Path open_outline(const HandleSection& h, Length end) {
  Path path = outline_of(h, 0 * mm, end);
  const auto above = upper_edge(h, 0 * mm, end).size();
  std::rotate(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(above), path.end());
  return path;
}

Path bore_of(const HandleSection& h) {
  const Length r = h.bore_half();
  const Length full = h.x(std::min(h.plan.depth.full, h.end()));
  const Length y = h.seat.y;
  const Length begin = h.x(begin_of_wood(h));
  if (h.end() <= h.plan.depth.full) return {{begin, y - r}, {full, y - r}, {full, y + r}, {begin, y + r}};
  return {{begin, y - r}, {full, y - r}, {h.x(h.plan.depth.tip), y}, {full, y + r}, {begin, y + r}};
}

void draw_bore(Canvas& canvas, const HandleSection& h) {
  const Path bore = bore_of(h);
  if (bore.size() == 4) {  // the view ends before it does
    canvas.strokes({{bore.at(0), bore.at(1)}, {bore.at(2), bore.at(3)}}, wide_line);
    return;
  }
  canvas.polyline(bore, wide_line);
  canvas.line(bore.at(1), bore.at(3), wide_line);
}

/// A narrow line across with a zigzag in its middle: the view ends there, and the part goes on.
void draw_break(Canvas& canvas, Length x, Length middle, Length half) {
  const Length step = 1 * mm;
  canvas.polyline({{x, middle - half},
                   {x, middle - 2 * step},
                   {x - step, middle - step},
                   {x + step, middle + step},
                   {x, middle + 2 * step},
                   {x, middle + half}},
                  narrow_line);
}

void draw_stud(Canvas& canvas, const HandleSection& h) {
  const Length crest = h.half(h.thread().major);
  const Length root = h.half(external_minor_diameter(h.thread()));
  const Length tip = h.stud_tip();
  const Length end = h.x(std::min(h.plan.stud.embedded, h.end()));
  const Length y = h.seat.y;
  const Length chamfer = h.stud_shown ? 0 * mm : crest - root;
  // White below, so that neither the seat's line nor a tight bore's wall runs through it.
  canvas.add(Fill{{{{tip, y - crest}, {end, y - crest}, {end, y + crest}, {tip, y + crest}}}, Ink::white},
             Role::rule);
  if (h.stud_shown) {
    canvas.strokes({{{tip, y - crest}, {end, y - crest}}, {{tip, y + crest}, {end, y + crest}}}, wide_line);
    draw_break(canvas, tip, y, crest + 1 * mm);
    if (h.plan.stud.embedded < h.end()) canvas.line({end, y - crest}, {end, y + crest}, wide_line);
  } else {
    canvas.outline({{tip + chamfer, y - crest},
                    {end, y - crest},
                    {end, y + crest},
                    {tip + chamfer, y + crest},
                    {tip, y + root},
                    {tip, y - root}},
                   wide_line);
    canvas.line({tip + chamfer, y - crest}, {tip + chamfer, y + crest}, wide_line);
  }
  canvas.strokes({{{tip, y - root}, {end, y - root}}, {{tip, y + root}, {end, y + root}}}, narrow_line);
}

/// Both cut sides of the ring, from the wood under it outwards: hatched the other way and closer than the wood.
void draw_ferrule(Canvas& canvas, const HandleSection& h) {
  if (!h.order.ferrule) return;
  const FerruleFacts& ferrule = *h.order.ferrule;
  const Length end = std::min(ferrule.length.value, h.end());
  const Length outside = h.half(ferrule.outside_diameter.value);
  const auto wood_at = [&](Length z) {
    return ferrule.inside_diameter ? h.half(ferrule.inside_diameter->value) : h.radius(z);
  };
  for (const double side : {-1.0, 1.0}) {
    const Path ring{{h.seat.x, h.seat.y + side * wood_at(0 * mm)},
                    {h.seat.x, h.seat.y + side * outside},
                    {h.x(end), h.seat.y + side * outside},
                    {h.x(end), h.seat.y + side * wood_at(end)}};
    canvas.strokes(hatching(ring, {}, ferrule_pitch, Slope::falling), narrow_line);
    canvas.polyline(ring, wide_line);
  }
}

/// The part of a box between two places along the sheet; none where it does not reach there.
std::optional<Box> clipped(const Box& box, Length from, Length to) {
  const Length left = std::max(box.x, from), right = std::min(box.right(), to);
  if (right - left < 0.01 * mm) return std::nullopt;
  return Box{left, box.y, right - left, box.height};
}

/// What is drawn of the part behind its n-th stretch that is left out.
void draw_behind_break(Canvas& canvas, const HandleSection& h, std::size_t n, const std::optional<Box>& keep_free) {
  const bool last = n + 1 == h.left_out.size();
  const Length begin = h.left_out.at(n).to, end = last ? h.end() : h.left_out.at(n + 1).from;
  const Path outline = outline_of(h, begin, end);
  std::vector<Path> holes;
  const auto free = keep_free ? clipped(*keep_free, h.x(begin), h.x(end)) : std::nullopt;
  if (free) holes.push_back(corners(*free));
  canvas.strokes(hatching(outline, holes, wood_pitch), narrow_line);
  const auto above = static_cast<std::ptrdiff_t>(outline.size() / 2);
  if (last) {
    canvas.polyline(outline, wide_line);
  } else {
    canvas.polyline({outline.begin(), outline.begin() + above}, wide_line);
    canvas.polyline({outline.begin() + above, outline.end()}, wide_line);
    draw_break(canvas, h.x(end), h.seat.y, h.radius(end) + 1 * mm);
  }
  draw_break(canvas, h.x(begin), h.seat.y, h.radius(begin) + 1 * mm);
}

}  // namespace

Length HandleSection::x(Length along) const {
  Length missing, gaps;
  for (const LeftOut& out : left_out) {
    if (along <= out.from) break;
    missing += std::min(along, out.to) - out.from;
    gaps += break_gap;
  }
  return seat.x + across * scale * (along - missing) + gaps;
}

void draw_section(Canvas& canvas, const HandleSection& h, const std::optional<Box>& keep_free) {
  std::vector<Path> holes{bore_of(h)};
  const Length end = h.left_out.empty() ? h.end() : h.left_out.front().from;
  const auto free = keep_free ? clipped(*keep_free, h.seat.x, h.x(end)) : std::nullopt;
  if (free) holes.push_back(corners(*free));
  const Path outline = outline_of(h, 0 * mm, end);
  canvas.strokes(hatching(outline, holes, wood_pitch), narrow_line);
  if (h.handle_shown || !h.left_out.empty()) {
    canvas.polyline(open_outline(h, end), wide_line);
    draw_break(canvas, h.x(end), h.seat.y, h.radius(end) + 1 * mm);
  } else {
    canvas.outline(outline, wide_line);
  }
  for (std::size_t n = 0; n < h.left_out.size(); ++n) draw_behind_break(canvas, h, n, keep_free);
  draw_ferrule(canvas, h);
  draw_bore(canvas, h);
  draw_stud(canvas, h);
  const Spot from{h.stud_tip() - past_outline, h.seat.y}, to{h.x(h.end()) + past_outline, h.seat.y};
  const Spot opens{keep_free ? keep_free->x : to.x, h.seat.y};
  canvas.line(from, opens, narrow_line, Dash::centre);
  const bool goes_on = keep_free && keep_free->right() < h.x(h.end()) - 0.01 * mm;
  if (goes_on) canvas.line({keep_free->right(), h.seat.y}, to, narrow_line, Dash::centre);
}

Length HandleSection::outside(Length along) const {
  const bool covered = order.ferrule && fits(order.ferrule->length.value, along);
  return covered ? std::max(radius(along), half(order.ferrule->outside_diameter.value)) : radius(along);
}

Length HandleSection::bore_half() const {
  const Length wall = half(plan.bore.drill.diameter);
  return order.bore.fit.value == BoreFit::glued ? std::max(wall, half(thread().major) + least_glue) : wall;
}

Length chain_offset(const HandleSection& h) {
  const Length form = h.half(h.plan.size.largest_diameter);
  return (h.order.ferrule ? std::max(form, h.half(h.order.ferrule->outside_diameter.value)) : form) + chain_gap;
}

void draw_metal_zone(Canvas& canvas, const HandleSection& h) {
  const Length end = h.x(h.plan.stud.embedded);
  const Length offset = chain_offset(h);
  canvas.line({h.seat.x, h.seat.y + offset}, {end, h.seat.y + offset}, wide_line, Dash::centre);
  canvas.line({end, h.seat.y + h.half(h.thread().major)}, {end, h.seat.y + offset + 2 * mm}, narrow_line);
}

}  // namespace blankwright
