#include <algorithm>
#include <cmath>

#include "diagnose/failure.h"
#include "plan/process/bath.h"

namespace blankwright {
namespace {

/// How many things of that size stand in a row, with a gap between two.
int in_a_row(Length room, Length thing, Length gap) {
  int n = 0;
  while (fits(room, (n + 1) * thing + n * gap)) ++n;
  return n;
}

/// Cells seen from above.
struct Cells {
  Length across, along;
  std::vector<Length> x, y;

  void add_row(Length at_y, int count, Length gap) {
    for (int i = 0; i < count; ++i) {
      x.push_back((i - (count - 1) / 2.0) * (across + gap));
      y.push_back(at_y);
    }
  }
};

Cells grid(const VesselFacts& vessel, Cells cells, Length gap) {
  const int columns = in_a_row(vessel.width->value - 2 * gap, cells.across, gap);
  const int rows = in_a_row(vessel.depth->value - 2 * gap, cells.along, gap);
  for (int row = 0; row < rows; ++row) {
    cells.add_row((row - (rows - 1) / 2.0) * (cells.along + gap), columns, gap);
  }
  return cells;
}

/// Half the chord of a circle at that distance from its middle.
Length half_chord(Length radius, Length distance) {
  const Area left = radius * radius - distance * distance;
  return left > Area{} ? sqrt(left) : Length{};
}

/// Rows across a circle; `offset` is how far one of them lies from the middle, in parts of the rows' pitch.
Cells rows_in_circle(Length radius, Cells cells, Length gap, double offset) {
  const Length reach = radius - gap;
  const Length pitch = cells.along + gap;
  const int beyond = in_a_row(radius, pitch, 0 * mm) + 1;
  for (int row = -beyond; row <= beyond; ++row) {
    const Length y = (row + offset) * pitch;
    const Length far_edge = abs(y) + cells.along / 2;
    if (!fits(reach, far_edge)) continue;
    cells.add_row(y, in_a_row(2 * half_chord(reach, far_edge), cells.across, gap), gap);
  }
  return cells;
}

/// Places of the rows, as parts of their pitch, at which one more blank fits into one of them: a row holds n as long
/// as it lies no farther from the middle than reach lets n stand side by side. Those to the other side mirror them. A
/// row in the middle and the middle between two rows come first: they look tidier, where they hold as many.
std::vector<double> offsets_to_try(Length radius, const Cells& cell, Length gap) {
  const Length reach = radius - gap;
  const Length pitch = cell.along + gap;
  std::vector<double> offsets{0, 0.5};
  const int most = in_a_row(2 * reach, cell.across, gap);
  for (int n = 1; n <= most; ++n) {
    const Length half = (n * cell.across + (n - 1) * gap) / 2;
    const double rows = (half_chord(reach, half) - cell.along / 2) / pitch;
    if (rows >= 0) offsets.push_back(rows - std::floor(rows));
  }
  return offsets;
}

Cells best_rows_in_circle(Length radius, const Cells& cell, Length gap) {
  Cells best = cell;
  for (const double offset : offsets_to_try(radius, cell, gap)) {
    Cells cells = rows_in_circle(radius, cell, gap, offset);
    if (cells.x.size() > best.x.size()) best = std::move(cells);
  }
  return best;
}

Cells cells_in(const VesselFacts& vessel, Length across, Length along, Length gap) {
  const Cells cell{across, along, {}, {}};
  if (vessel.shape.value == VesselShape::rectangular) {
    BW_EXPECT(vessel.width && vessel.depth);
    return grid(vessel, cell, gap);
  }
  BW_EXPECT(vessel.diameter);
  return best_rows_in_circle(vessel.diameter->value / 2, cell, gap);
}

Cells lying_in(const VesselFacts& vessel, Length section, Length length, Length gap) {
  Cells cells = cells_in(vessel, section, length, gap);
  Cells turned = cells_in(vessel, length, section, gap);
  return turned.x.size() > cells.x.size() ? turned : cells;
}

}  // namespace

Length usable_height(const VesselFacts& vessel) {
  return vessel.usable_height ? vessel.usable_height->value : vessel.height.value / 2;
}

BathLayout bath_layout(const VesselFacts& vessel, const BathFacts& facts, Length section, Length length,
                       Stance stance, int layers) {
  BW_EXPECT(section > Length{} && length > Length{} && layers >= 1);
  const bool standing = stance == Stance::standing;
  BathLayout layout;
  layout.stance = stance;
  layout.layers = layers;
  layout.top = layers * (standing ? length : section);
  if (!fits(usable_height(vessel), layout.top + facts.cover.value)) return layout;
  const Length gap = facts.gap.value;
  Cells cells = standing ? cells_in(vessel, section, section, gap) : lying_in(vessel, section, length, gap);
  layout.in_layer = static_cast<int>(cells.x.size());
  layout.cell_across = cells.across;
  layout.cell_along = cells.along;
  layout.cell_x = std::move(cells.x);
  layout.cell_y = std::move(cells.y);
  return layout;
}

}  // namespace blankwright
