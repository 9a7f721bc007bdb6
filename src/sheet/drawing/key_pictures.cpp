#include "sheet/drawing/key_pictures.h"

#include <algorithm>

#include "sheet/drawing/drawing_layout.h"
#include "sheet/mark/draughting.h"
#include "sheet/paper/turner_facts.h"

namespace blankwright {
namespace {

constexpr Length gap = 5 * mm;                                     // between both pictures
constexpr Length caption_height = 4 * mm, with_caption = 18 * mm;  // the least height of pictures that have one

Path corners(const Box& box) {
  return {{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}};
}

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

/// The square or rounded end with the form's largest diameter and the bore in it; datum B at its faces.
void draw_blank_end(Canvas& canvas, const Dossier& d, const Box& box) {
  const bool rounded = is_rounded(d);
  const Length across = rounded ? d.plan.rounded->diameter : d.plan.blank.squared_section;
  const double scale = box.height / across;
  const Length side = scale * across;
  const Spot middle{box.x + datum_feature_width + side / 2, box.y + box.height / 2};
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
  datum_feature(canvas, {face.x, middle.y}, "B");
}

}  // namespace

void draw_key_pictures(Canvas& canvas, const Dossier& d, const Box& all) {
  const Box box = inside(all, 1.5 * mm);  // the centre lines of the blank stand out by that
  draw_blank_end(canvas, d, {box.x, box.y, {}, box.height});
  const Length left = box.x + datum_feature_width + box.height + gap;
  Box finished{left, box.y, box.right() - left, box.height};
  if (all.height >= with_caption) {
    finished.height = box.height - caption_height;
    canvas.text_fitted({left, finished.bottom(), finished.width, caption_height},
                       d.sheet_template.words[Word::finished_picture], {.size = Lettering::note});
  }
  draw_finished(canvas, d, finished);
}

}  // namespace blankwright
