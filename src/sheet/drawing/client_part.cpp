#include "sheet/drawing/client_part.h"

#include <algorithm>

#include "plan/tables/threads.h"

namespace blankwright {
namespace {

constexpr Length behind_hole = 3 * mm;  // of the part, on paper
constexpr Length zigzag_step = 1 * mm;  // of the zigzag

}  // namespace

ClientPart client_part(const HandleSection& h) {
  ClientPart out;
  const Order& order = h.order;
  out.radius = order.seat.part_diameter ? h.half(order.seat.part_diameter->value)
               : order.ferrule          ? h.half(order.ferrule->outside_diameter.value)
                                        : h.radius(0 * mm);
  out.radius = std::max(out.radius, h.half(h.thread().major) + 2 * mm);
  if (order.stud.hole_depth) out.hole = h.across * h.scale * order.stud.hole_depth->value;
  out.length = std::max(h.seat.x - h.stud_tip(), out.hole.value_or(0 * mm)) + behind_hole;
  return out;
}

void draw_client_part(Canvas& canvas, const HandleSection& h, const OpenStretch& gap) {
  const ClientPart part = client_part(h);
  const Length y = h.seat.y, left = h.seat.x - part.length;
  const auto ghost = [&](Path path) { canvas.polyline(std::move(path), narrow_line, Dash::phantom); };
  ghost({{left, y - part.radius}, {h.seat.x, y - part.radius}});
  ghost({{left, y + part.radius}, {gap.from, y + part.radius}});
  ghost({{gap.to, y + part.radius}, {h.seat.x, y + part.radius}});
  canvas.polyline({{left, y - part.radius - zigzag_step},
                   {left, y - 2 * zigzag_step},
                   {left - zigzag_step, y - zigzag_step},
                   {left + zigzag_step, y + zigzag_step},
                   {left, y + 2 * zigzag_step},
                   {left, y + part.radius + zigzag_step}},
                  narrow_line);
  if (!part.hole || *part.hole <= h.seat.x - h.stud_tip()) return;
  const Length crest = h.half(h.thread().major), root = h.half(external_minor_diameter(h.thread()));
  const Length end = h.seat.x - *part.hole;
  ghost({{h.stud_tip(), y - crest}, {end, y - crest}, {end, y + crest}, {h.stud_tip(), y + crest}});
  ghost({{h.stud_tip(), y - root}, {end, y - root}});
  ghost({{h.stud_tip(), y + root}, {end, y + root}});
}

}  // namespace blankwright
