#include "sheet/sign.h"

#include <array>
#include <cmath>
#include <numbers>
#include <span>

namespace blankwright {
namespace {

using Point = std::array<double, 2>;  // in a square of ten by ten, y down
using Lines = std::vector<std::vector<Point>>;

std::vector<Point> arc(Point centre, double radius, double from_degrees, double to_degrees) {
  std::vector<Point> points;
  constexpr int steps = 32;
  for (int i = 0; i <= steps; ++i) {
    const double angle = (from_degrees + (to_degrees - from_degrees) * i / steps) * std::numbers::pi / 180;
    points.push_back({centre[0] + radius * std::cos(angle), centre[1] + radius * std::sin(angle)});
  }
  return points;
}
std::vector<Point> circle(Point centre, double radius) { return arc(centre, radius, 0, 360); }
std::vector<Point> rectangle(double left, double top, double right, double bottom) {
  return {{left, top}, {right, top}, {right, bottom}, {left, bottom}, {left, top}};
}

/// A handle on its stud.
Lines handle() {
  return {{{0, 4.4},
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
          {{2, 4.4}, {2, 5.6}}};
}
/// A clock.
Lines clock() { return {circle({5, 5}, 4.6), {{5, 2}, {5, 5}, {7.4, 6.4}}}; }
/// A board with its cuts.
Lines board() {
  return {rectangle(0, 2.5, 10, 7.5), {{0, 5}, {10, 5}}, {{3.3, 2.5}, {3.3, 7.5}}, {{6.6, 2.5}, {6.6, 7.5}}};
}
/// A metal tag on its wire.
Lines stamped_tag() {
  return {{{2.5, 1}, {10, 1}, {10, 9}, {2.5, 9}, {0, 6.5}, {0, 3.5}, {2.5, 1}},
          circle({2.4, 5}, 0.9),
          {{4.6, 3.6}, {8.6, 3.6}},
          {{4.6, 6.4}, {8.6, 6.4}}};
}
/// A balance.
Lines balance() {
  return {{{5, 0.5}, {5, 9}},
          {{2.5, 9.5}, {7.5, 9.5}},
          {{0.8, 2}, {9.2, 2}},
          {{0.8, 2}, {-0.2, 5.6}, {3, 5.6}, {1.6, 2}},
          {{8.4, 2}, {7, 5.6}, {10.2, 5.6}, {9.2, 2}}};
}
/// A vessel under its lid, blanks below the level.
Lines vessel() {
  return {{{1, 1.6}, {1, 9.6}, {9, 9.6}, {9, 1.6}},
          {{0.2, 1.6}, {9.8, 1.6}},
          {{1, 3.8}, {9, 3.8}},
          rectangle(2.4, 5, 4.6, 9.6),
          rectangle(5.6, 5, 7.8, 9.6)};
}
/// An oven with its shelf.
Lines oven() {
  return {rectangle(0.2, 0.6, 9.8, 9.4),
          rectangle(1.4, 3, 8.6, 8.4),
          {{1.4, 6.4}, {8.6, 6.4}},
          circle({2.4, 1.8}, 0.6),
          circle({7.6, 1.8}, 0.6)};
}
/// A bottle.
Lines bottle() {
  return {
      {{3.6, 0.4}, {6.4, 0.4}, {6.4, 2.8}, {8.4, 4.6}, {8.4, 9.6}, {1.6, 9.6}, {1.6, 4.6}, {3.6, 2.8}, {3.6, 0.4}},
      rectangle(1.6, 5.6, 8.4, 8.4)};
}
/// A caliper's jaws about a round.
Lines caliper() {
  return {{{0.6, 9.4}, {0.6, 1}, {9.8, 1}, {9.8, 2.6}, {2, 2.6}, {2, 9.4}, {0.6, 9.4}},
          {{7, 2.6}, {7, 9.4}, {8.4, 9.4}, {8.4, 2.6}},
          circle({4.5, 6.2}, 2.4)};
}
/// Rings about a cross.
Lines rings() {
  return {circle({5, 5}, 4.6), circle({5, 5}, 2.4), {{5, 0}, {5, 4}},
          {{5, 6}, {5, 10}},   {{0, 5}, {4, 5}},    {{6, 5}, {10, 5}}};
}
/// Half of a form beside its axis.
Lines half_form() {
  return {{{2, 0}, {2, 10}}, {{2, 0.6}, {5, 0.6}, {6.6, 2.6}, {5.4, 5}, {7.2, 8}, {5.6, 9.6}, {2, 9.6}}};
}
/// A warning triangle.
Lines triangle() { return {{{5, 0.6}, {10, 9.4}, {0, 9.4}, {5, 0.6}}, {{5, 3.6}, {5, 6.6}}, {{5, 7.6}, {5, 8.2}}}; }
/// A sum.
Lines sum() { return {{{8.6, 2.4}, {8.6, 0.6}, {1.4, 0.6}, {5.4, 5}, {1.4, 9.4}, {8.6, 9.4}, {8.6, 7.6}}}; }

Lines lines_of(SheetKind kind) {
  using Make = Lines (*)();
  constexpr auto makers = std::to_array<Make>(
      {handle, clock, board, stamped_tag, balance, vessel, oven, bottle, caliper, rings, half_form, triangle, sum});
  return makers.at(static_cast<std::size_t>(kind))();
}

}  // namespace

void draw_sign(Canvas& canvas, SheetKind kind, const Box& box) {
  const Length unit = (std::min(box.width, box.height) - 2 * mm) / 10.4;
  if (unit <= 0 * mm) return;
  const Spot origin{box.x + (box.width - 10 * unit) / 2, box.y + (box.height - 10 * unit) / 2};
  std::vector<Path> paths;
  for (const auto& line : lines_of(kind)) {
    Path path;
    for (const auto& [x, y] : line) path.push_back({origin.x + x * unit, origin.y + y * unit});
    paths.push_back(std::move(path));
  }
  canvas.strokes(std::move(paths), wide_line);
}

}  // namespace blankwright
