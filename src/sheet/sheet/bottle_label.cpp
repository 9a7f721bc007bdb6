#include "sheet/tag/bottle_label.h"

#include "sheet/sheet/sheets.h"

namespace blankwright {

/// Labels to cut out for the bottles of activated resin that the order's baths leave over, where the last sheet of
/// the tags has no places for them: below the part before, if there is room.
void bottle_labels(OrderFlow& flow) {
  constexpr Length width = 62 * mm, height = 38 * mm;
  const Dossier& d = flow.dossier;
  const auto labels = bottles_of(d);
  if (labels.empty() || bottles_go_with_tags(d)) return;
  constexpr Length gap = 3 * mm;
  if (!flow.sheets.empty() && fits(free_room(flow).height, gap + height)) {
    take_strip(flow, gap);
  } else {
    begin_part(flow, Word::bottle_labels);
  }
  for (std::size_t i = 0; i < labels.size();) {
    const Box strip = next_strip(flow, height);
    Canvas canvas = canvas_of(flow);
    Length x = strip.x;
    do {
      const Box label{x, strip.y, width, height};
      canvas.outline(
          {{label.x, label.y}, {label.right(), label.y}, {label.right(), label.bottom()}, {label.x, label.bottom()}},
          narrow_line, Dash::tear);
      draw_bottle_label(canvas, d, *labels.at(i++), label);
      x += width;
    } while (i < labels.size() && fits(strip.right(), x + width));
  }
}

}  // namespace blankwright
