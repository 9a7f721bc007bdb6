#include "sheet/frame/sign.h"

#include <array>
#include <cmath>
#include <numbers>

namespace blankwright {
namespace {

using Corner = std::array<double, 2>;  // in a square of ten by ten, y down
using Lines = std::vector<std::vector<Corner>>;

struct Ring {
  Corner centre;
  double radius;
};
struct Sign {
  Lines lines;
  std::vector<Ring> rings{};
};

std::vector<Corner> rectangle(double left, double top, double right, double bottom) {
  return {{left, top}, {right, top}, {right, bottom}, {left, bottom}, {left, top}};
}

/// A handle on its stud.
Sign handle() {
  return {{{{0, 4.4},
            {2, 4.4},
            {2, 3.2},
            {4, 2.6},
            {6.5, 3.6},
            {9, 2.8},
            {10, 5},
            {9, 7.2},
            {6.5, 6.4},
            {4, 7.4},
            {2, 6.8},
            {2, 5.6},
            {0, 5.6},
            {0, 4.4}},
           {{2, 4.4}, {2, 5.6}}}};
}
/// A clock.
Sign clock() { return {{{{5, 2}, {5, 5}, {7.4, 6.4}}}, {{{5, 5}, 4.6}}}; }
/// A board with the blade of a saw in it.
Sign board() {
  constexpr int teeth = 12;
  std::vector<Corner> blade;
  for (int i = 0; i <= teeth; ++i) {
    const double a = 2 * std::numbers::pi * i / teeth;
    blade.push_back({5 + 4 * std::sin(a), 4.2 - 4 * std::cos(a)});
    if (i < teeth) blade.push_back({5 + 3 * std::sin(a + 0.1), 4.2 - 3 * std::cos(a + 0.1)});
  }
  return {{blade, {{1.4, 6}, {0, 6}, {0, 9.4}, {10, 9.4}, {10, 6}, {8.6, 6}}}, {{{5, 4.2}, 0.7}}};
}
/// A metal tag on its wire.
Sign stamped_tag() {
  return {{{{2.5, 1}, {10, 1}, {10, 9}, {2.5, 9}, {0, 6.5}, {0, 3.5}, {2.5, 1}},
           {{4.6, 3.6}, {8.6, 3.6}},
           {{4.6, 6.4}, {8.6, 6.4}}},
          {{{2.4, 5}, 0.9}}};
}
/// A vessel under its lid, blanks below the level.
Sign vessel() {
  return {{{{1, 1.6}, {1, 9.6}, {9, 9.6}, {9, 1.6}},
           {{0.2, 1.6}, {9.8, 1.6}},
           {{1, 3.8}, {9, 3.8}},
           rectangle(2.4, 5, 4.6, 9.6),
           rectangle(5.6, 5, 7.8, 9.6)}};
}
/// An oven with its shelf.
Sign oven() {
  return {{rectangle(0.2, 0.6, 9.8, 9.4), rectangle(1.4, 3, 8.6, 8.4), {{1.4, 6.4}, {8.6, 6.4}}},
          {{{2.4, 1.8}, 0.6}, {{7.6, 1.8}, 0.6}}};
}
/// A bottle.
Sign bottle() {
  return {
      {{{3.6, 0.4}, {6.4, 0.4}, {6.4, 2.8}, {8.4, 4.6}, {8.4, 9.6}, {1.6, 9.6}, {1.6, 4.6}, {3.6, 2.8}, {3.6, 0.4}},
       rectangle(1.6, 5.6, 8.4, 8.4)}};
}
/// A caliper with its scale, a round between its jaws.
Sign caliper() {
  return {{{{5.4, 3}, {1.6, 3}, {1.6, 7.4}, {0, 9.8}, {0, 0.8}, {10, 0.8}, {10, 3}, {8.4, 3}},
           {{5.4, 0.8}, {5.4, 7.4}, {7, 9.8}, {7, 4}, {8.4, 4}, {8.4, 0.8}},
           {{1.6, 0.8}, {1.6, 1.8}},
           {{2.9, 0.8}, {2.9, 1.8}},
           {{4.2, 0.8}, {4.2, 1.8}}},
          {{{3.5, 5.8}, 1.7}}};
}
/// Rings about a cross.
Sign rings() {
  return {{{{5, 0}, {5, 4}}, {{5, 6}, {5, 10}}, {{0, 5}, {4, 5}}, {{6, 5}, {10, 5}}}, {{{5, 5}, 4.6}, {{5, 5}, 2.4}}};
}
/// Half of a form beside its axis.
Sign half_form() {
  return {{{{2, 0}, {2, 10}}, {{2, 0.6}, {5, 0.6}, {6.6, 2.6}, {5.4, 5}, {7.2, 8}, {5.6, 9.6}, {2, 9.6}}}};
}
/// A warning triangle.
Sign triangle() { return {{{{5, 0.6}, {10, 9.4}, {0, 9.4}, {5, 0.6}}, {{5, 3.6}, {5, 6.6}}, {{5, 7.6}, {5, 8.2}}}}; }
/// A sum.
Sign sum() { return {{{{8.6, 2.4}, {8.6, 0.6}, {1.4, 0.6}, {5.4, 5}, {1.4, 9.4}, {8.6, 9.4}, {8.6, 7.6}}}}; }

Sign sign_for(SheetKind kind) {
  switch (kind) {
#define BW_SIGN(kind, title, maker, hand, sign) \
  case SheetKind::kind:                         \
    return sign();
    BW_SHEETS(BW_SIGN)
#undef BW_SIGN
  }
  return {};
}

}  // namespace

void draw_sign(Canvas& canvas, SheetKind kind, const Box& box) {
  const Length unit = (std::min(box.width, box.height) - 2 * mm) / 10.4;
  if (unit <= 0 * mm) return;
  const Spot origin{box.x + (box.width - 10 * unit) / 2, box.y + (box.height - 10 * unit) / 2};
  std::vector<Path> paths;
  const auto spot = [&](const Corner& point) { return Spot{origin.x + point[0] * unit, origin.y + point[1] * unit}; };
  const Sign sign = sign_for(kind);
  for (const auto& line : sign.lines) {
    Path path;
    for (const Corner& point : line) path.push_back(spot(point));
    paths.push_back(std::move(path));
  }
  canvas.strokes(std::move(paths), wide_line);
  for (const Ring& ring : sign.rings) canvas.circle(spot(ring.centre), ring.radius * unit, wide_line);
}

}  // namespace blankwright
