#include "sheet/drawing/key_pictures.h"

#include <algorithm>

#include "plan/figure/figure.h"
#include "sheet/drawing/drawing_layout.h"
#include "sheet/mark/draughting.h"
#include "sheet/paper/turner_facts.h"

namespace blankwright {
namespace {

constexpr Length pictures_gap = 5 * mm;                            // between both pictures
constexpr Length dimension_below = 2.4 * mm;                       // of the blank's end
constexpr Length size_room = 5.6 * mm;                             // under the end, for that and its number
constexpr Length caption_height = 4 * mm, with_caption = 18 * mm;  // the least height of pictures that have one

/// As it is used: outline, ferrule, and so much of the client's part as its hole is deep.
void draw_finished(Canvas& canvas, const Dossier& d, const Box& box) {
  const FinishedForm& form = d.plan.form;
  const Length head = d.order.stud.hole_depth ? d.order.stud.hole_depth->value : d.plan.stud.projection;
  const Length face = d.order.seat.part_diameter ? d.order.seat.part_diameter->value
                      : d.order.ferrule          ? d.order.ferrule->outside_diameter.value
                                                 : form.diameter(0 * mm);
  const Length largest = std::max(largest_drawn(d), face);
  const double scale = std::min(box.width / (form.length() + head), box.height / largest);
  const Length y = box.y + box.height / 2, seat = box.x + scale * head;
  Path above, below;
  for (const Length z : form.places_between(0 * mm, form.length())) {
    const Length r = scale * form.diameter(z) / 2;
    above.push_back({seat + scale * z, y - r});
    below.push_back({seat + scale * z, y + r});
  }
  above.insert(above.end(), below.rbegin(), below.rend());
  canvas.outline(std::move(above), wide_line);
  if (d.order.ferrule) {
    const Length r = scale * d.order.ferrule->outside_diameter.value / 2;
    const Box ring{seat, y - r, scale * d.order.ferrule->length.value, 2 * r};
    canvas.filled(corners(ring), Ink::white);
    canvas.outline(corners(ring), wide_line);
  }
  canvas.outline(corners({box.x, y - scale * face / 2, scale * head, scale * face}), narrow_line, Dash::phantom);
}

/// The square's side or the rounded blank's diameter under the end, with datum A in line with it: its axis (ISO
/// 5459).
void draw_size_with_datum(Canvas& canvas, const Dossier& d, const Box& face) {
  const Length y = face.bottom() + dimension_below;
  for (const Length x : {face.x, face.right()}) canvas.line({x, face.bottom() + 0.6 * mm}, {x, y + 0.5 * mm});
  canvas.line({face.x, y}, {face.right(), y});
  const Length head = std::min(arrow_length, face.width / 3);
  arrow(canvas, {face.x, y}, {face.right(), y}, head);
  arrow(canvas, {face.right(), y}, {face.x, y}, head);
  datum_feature(canvas, {face.x, y}, "A");
  const bool rounded = is_rounded(d);
  const Figure figure = rounded ? Figure::rounded_diameter : Figure::blank_squared_section;
  const Length size = rounded ? d.plan.rounded->diameter : d.plan.blank.squared_section;
  const std::string words = (rounded ? "Ø" : "") + drawn_text(d, size, figure_printing(d, figure));
  const TextStyle style{.size = Lettering::note};
  const Length capitals = canvas.capitals(style.size), sign = rounded ? 0 * mm : capitals + 0.5 * mm;
  const Spot at{face.x + (face.width - canvas.width_of(words, style) - sign) / 2, y + 1 * mm + capitals};
  if (!rounded) canvas.rectangle({at.x, at.y - capitals, capitals, capitals});
  canvas.text({at.x + sign, at.y}, words, style);
}

/// The square or rounded end with the form's largest diameter and the bore in it.
void draw_blank_end(Canvas& canvas, const Dossier& d, const Box& box) {
  const bool rounded = is_rounded(d);
  const Length across = rounded ? d.plan.rounded->diameter : d.plan.blank.squared_section;
  const Length side = box.height - size_room;
  const double scale = side / across;
  const Spot middle{box.x + datum_feature_width + side / 2, box.y + side / 2};
  const Box face{middle.x - side / 2, middle.y - side / 2, side, side};
  if (rounded) {
    canvas.circle(middle, side / 2, wide_line);
  } else {
    canvas.rectangle(face, wide_line);
  }
  canvas.circle(middle, scale * largest_drawn(d) / 2);
  canvas.circle(middle, scale * d.plan.bore.drill.diameter / 2);
  const Length arm = side / 2 + 1.5 * mm;
  canvas.line({middle.x - side / 2, middle.y}, {middle.x + arm, middle.y}, narrow_line, Dash::centre);
  canvas.line({middle.x, middle.y - arm}, {middle.x, middle.y + arm}, narrow_line, Dash::centre);
  draw_size_with_datum(canvas, d, face);
}

}  // namespace

void draw_key_pictures(Canvas& canvas, const Dossier& d, const Box& all) {
  const Box box = inside(all, 1.5 * mm);  // the centre lines of the blank stand out by that
  draw_blank_end(canvas, d, {box.x, box.y, {}, box.height});
  const Length left = box.x + datum_feature_width + box.height - size_room + pictures_gap;
  Box finished{left, box.y, box.right() - left, box.height};
  if (all.height >= with_caption) {
    finished.height = box.height - caption_height;
    canvas.text_fitted({left, finished.bottom(), finished.width, caption_height},
                       d.sheet_template.words[Word::finished_picture], {.size = Lettering::note});
  }
  draw_finished(canvas, d, finished);
}

}  // namespace blankwright
