#include "sheet/drawing/end_target.h"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

namespace blankwright {
namespace {

constexpr Length dot = 0.5 * mm;
constexpr Length dot_gap = 1 * mm;  // in which the cross lines stop short of the dot
constexpr Length pilot = 3 * mm;
constexpr Length target_arm = 4 * mm;     // past the square
constexpr Length target_border = 1 * mm;  // from an arm's end to the cut
constexpr Length least_width = 50 * mm;   // the strip beside the upper arm has to hold an ID
constexpr int ticks_inside = 3, ticks_outside = 4, long_tick_at = 4;
constexpr Length past_corner = 3 * mm;  // of the diagonals below, so that an edge of the blank can be laid on them

TargetRing finished(Length diameter) { return {Word::target_finished, diameter, wide_line}; }

TargetRing cleaned_up(const Dossier& d, Length diameter) {
  return {Word::target_clean_up, diameter + 2 * d.shop.allowances.finish.value, narrow_line, Dash::hidden};
}

/// A target as it is being drawn.
struct Drawn {
  Canvas& canvas;
  const EndTarget& target;
  PrinterCorrection correction;
  Box face;
  Spot centre;
  bool whole;  ///< the square finds room

  Spot at(Length right, Length below) const { return correction.from(centre, right, below); }
};

/// The four ways of an arm, from the centre.
struct Way {
  double right, below;
};
constexpr Way ways[] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};

void draw_cross(const Drawn& t) {
  const Length to_edge = t.target.square / 2 + target_arm;
  std::vector<Path> lines;
  for (const auto& [right, below] : ways) {
    const Length from = dot / 2 + dot_gap;
    Spot end = t.at(right * to_edge, below * to_edge);
    end.x = std::clamp(end.x, t.face.x + target_border, t.face.right() - target_border);
    end.y = std::clamp(end.y, t.face.y + target_border, t.face.bottom() - target_border);
    lines.push_back({t.at(right * from, below * from), end});
  }
  t.canvas.strokes(std::move(lines), narrow_line);
  t.canvas.ellipse(circle_to_print(t.correction, t.centre, dot), 0 * mm);
}

/// Ticks on the arms, counted from the square outwards; inside only where no ring is.
void draw_ticks(const Drawn& t, Length pitch) {
  Length rings{};
  for (const TargetRing& ring : t.target.rings) rings = std::max(rings, ring.diameter / 2);
  std::vector<Path> ticks;
  for (int i = -ticks_inside; i <= ticks_outside; ++i) {
    const Length along = t.target.square / 2 + i * pitch;
    if (i == 0 || along < rings + pitch / 2) continue;  // at 0 is the square itself
    const Length half = i == long_tick_at ? 1.8 * mm : 0.9 * mm;
    for (const auto& [right, below] : ways) {
      ticks.push_back({t.at(right * along - below * half, below * along + right * half),
                       t.at(right * along + below * half, below * along - right * half)});
    }
  }
  t.canvas.strokes(std::move(ticks), narrow_line);
}

void draw_square(const Drawn& t) {
  const Length half = t.target.square / 2;
  t.canvas.outline({t.at(-half, -half), t.at(half, -half), t.at(half, half), t.at(-half, half)}, narrow_line);
}

/// From outside the small rings at the middle to past the square's corners.
void draw_diagonals(const Drawn& t) {
  Length from = 3 * mm;
  for (const TargetRing& ring : t.target.rings) {
    if (ring.name != Word::target_finished && ring.name != Word::target_clean_up) {
      from = std::max(from, ring.diameter / 2 / std::numbers::sqrt2 + 1 * mm);
    }
  }
  const Length room = std::min((t.face.width / 2 - target_border) / t.correction.across,
                               (t.face.height / 2 - target_border) / t.correction.down);
  const Length to = std::min(t.target.square / 2 + past_corner, room);
  if (from >= to) return;
  std::vector<Path> lines;
  for (const double right : {1.0, -1.0}) {
    for (const double below : {1.0, -1.0}) {
      // Above, where words stand, they end at the square.
      const Length end = below > 0 ? to : std::min(to, t.target.square / 2);
      lines.push_back({t.at(right * from, below * from), t.at(right * end, below * end)});
    }
  }
  t.canvas.strokes(std::move(lines), narrow_line);
}

/// In the corners above the square: the ID, or a field for it, and which end it is; in the corner below the
/// order. The edge with the ID is laid on the same face at both ends.
void draw_corners(const Drawn& t, const Dossier& d, const std::optional<BlankId>& blank) {
  const WordTable& w = d.sheet_template.words;
  const Length high = std::max(4 * mm, (t.face.height - t.correction.down * t.target.square) / 2 - 0.6 * mm);
  const Length wide = t.face.width / 2 - 2.6 * mm;
  const Box left{t.face.x + 1 * mm, t.face.y + 0.6 * mm, wide - 1 * mm, high - 0.6 * mm};
  const Box right{t.face.right() - wide, left.y, left.width, left.height};
  if (blank) {
    t.canvas.text_fitted(left, blank->shown(), {.size = Lettering::machine, .face = Face::bold});
  } else {
    t.canvas.line({left.x, left.bottom() - 0.6 * mm}, {left.right(), left.bottom() - 0.6 * mm});
  }
  t.canvas.text_fitted(right, w[t.target.seat ? Word::target_seat : Word::target_tail],
                       {.size = Lettering::hand, .align = Align::right});
  t.canvas.text_fitted({t.face.x + 4.5 * mm, t.face.bottom() - left.height, wide - 5 * mm, left.height - 0.6 * mm},
                       d.order.id.value, {.size = Lettering::note});
}

}  // namespace

EndTarget seat_target(const Dossier& d) {
  EndTarget target{true, d.plan.blank.squared_section, {{Word::target_pilot, pilot, narrow_line}}};
  // Where no axis would do, there is no tolerance to draw.
  if (d.plan.centring.seat_offset > 0 * mm) {
    target.rings.push_back({Word::target_position, 2 * d.plan.centring.seat_offset, narrow_line});
  }
  target.rings.push_back({Word::bore, d.plan.bore.drill.diameter, narrow_line});
  const Length diameter = d.plan.form.diameter(0 * mm);
  target.rings.push_back(finished(diameter));
  target.rings.push_back(cleaned_up(d, diameter));
  return target;
}

EndTarget tail_target(const Dossier& d) {
  const Length diameter = d.plan.form.diameter(d.plan.form.length());
  return {false, d.plan.blank.squared_section, {finished(diameter), cleaned_up(d, diameter)}};
}

Length tick_pitch(UnitSystem units) { return units == UnitSystem::metric ? 1 * mm : inch / 32; }
Length long_tick(UnitSystem units) { return long_tick_at * tick_pitch(units); }

Box target_room(const EndTarget& target, const PrinterCorrection& correction) {
  const Length side = target.square + 2 * target_arm;
  return {{},
          {},
          std::max(correction.across * side + 2 * target_border, least_width),
          correction.down * side + 2 * target_border};
}

bool ring_fits(const Box& box, const PrinterCorrection& correction, Length diameter) {
  return fits(box.width - 2 * target_border, correction.across * diameter) &&
         fits(box.height - 2 * target_border, correction.down * diameter);
}

bool square_fits(const Box& box, const PrinterCorrection& correction, Length side) {
  return ring_fits(box, correction, side + 2 * target_arm);
}

void draw_target(Canvas& canvas, const Dossier& d, const EndTarget& target, const Box& box,
                 const std::optional<BlankId>& blank) {
  const PrinterCorrection correction = correction_of(d.shop.printer);
  const Box& face = box;
  const Drawn t{canvas,
                target,
                correction,
                face,
                {face.x + face.width / 2, face.y + face.height / 2},
                square_fits(box, correction, target.square)};
  canvas.rectangle(box);
  draw_cross(t);
  draw_diagonals(t);
  if (t.whole) {
    draw_square(t);
    draw_ticks(t, tick_pitch(d.shop.units.value));
  }
  for (const TargetRing& ring : target.rings) {
    if (!ring_fits(box, correction, ring.diameter)) continue;
    canvas.ellipse(circle_to_print(correction, t.centre, ring.diameter), ring.line, ring.dash);
  }
  draw_corners(t, d, blank);
}

}  // namespace blankwright
