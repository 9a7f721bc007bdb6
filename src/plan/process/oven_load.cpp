#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "plan/process/cure.h"

namespace blankwright {
namespace {

/// A straight line may part a shelf so often, one within the other. What further lines would gain nobody saw in
/// thousands of ovens; what a person lays out by hand is to stay simple.
constexpr int most_lines = 2;

/// A blank with a gap at one side and one end. Where those fit into a room that is larger by a gap, blanks with gaps
/// between them fit into the room itself.
struct Cell {
  Length wide, deep;
  Cell turned() const { return {deep, wide}; }
};

struct Room {
  Length x, y, width, depth;
};

struct Laying {
  int count = 0;
  bool turned = false;                       ///< of the rows, where nothing is parted
  std::optional<std::array<Room, 2>> parts;  ///< either side of the line, where there is one
};

int how_many(Length room, Length thing) {
  const int n = std::max(0, static_cast<int>(std::floor(room / thing)));
  return fits(room, (n + 1) * thing) ? n + 1 : n;
}

int in_rows(const Room& room, const Cell& cell) {
  return how_many(room.width, cell.wide) * how_many(room.depth, cell.deep);
}

/// More than area and sides allow never lie in it.
int at_most(const Room& room, const Cell& cell) {
  const Length shorter = std::min(cell.wide, cell.deep);
  if (!fits(room.width, shorter) || !fits(room.depth, shorter)) return 0;
  return static_cast<int>(room.width * room.depth / (cell.wide * cell.deep) + 1e-3);
}

std::array<Room, 2> parted_across(const Room& room, Length at) {
  return {Room{room.x, room.y, at, room.depth}, Room{room.x + at, room.y, room.width - at, room.depth}};
}

std::array<Room, 2> parted_along(const Room& room, Length at) {
  return {Room{room.x, room.y, room.width, at}, Room{room.x, room.y + at, room.width, room.depth - at}};
}

/// A line is only worth trying where rows of one way end.
Laying best_laying(const Room& room, const Cell& cell, int lines) {
  const int straight = in_rows(room, cell), turned = in_rows(room, cell.turned());
  Laying best{std::max(straight, turned), turned > straight, {}};
  if (lines == 0) return best;
  const auto consider = [&](const std::array<Room, 2>& parts) {
    if (at_most(parts[0], cell) + at_most(parts[1], cell) <= best.count) return;
    const int count = best_laying(parts[0], cell, lines - 1).count + best_laying(parts[1], cell, lines - 1).count;
    if (count > best.count) best = {.count = count, .parts = parts};
  };
  for (const Length size : {cell.wide, cell.deep}) {
    for (int n = how_many(room.width, size); n > 0; --n) consider(parted_across(room, n * size));
    for (int n = how_many(room.depth, size); n > 0; --n) consider(parted_along(room, n * size));
  }
  return best;
}

void lay(const Room& room, const Cell& cell, int lines, std::vector<TrayPlace>& places) {
  const Laying laying = best_laying(room, cell, lines);
  if (laying.parts) {
    for (const Room& part : *laying.parts) lay(part, cell, lines - 1, places);
    return;
  }
  const auto [wide, deep] = laying.turned ? cell.turned() : cell;
  const int columns = how_many(room.width, wide), rows = how_many(room.depth, deep);
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      places.push_back({room.x + column * wide, room.y + row * deep, laying.turned});
    }
  }
}

void move_to_middle(OvenLoad& load, const OvenFacts& oven) {
  Length right{}, back{};
  for (const TrayPlace& place : load.places) {
    right = std::max(right, place.x + (place.turned ? load.length : load.section));
    back = std::max(back, place.y + (place.turned ? load.section : load.length));
  }
  for (TrayPlace& place : load.places) {
    place.x += (oven.width.value - right) / 2;
    place.y += (oven.depth.value - back) / 2;
  }
}

}  // namespace

OvenLoad oven_load(const OvenFacts& oven, Length section, Length length) {
  OvenLoad load{oven.shelves.value, section, length, {}};
  const Length clearance = oven.clearance.value, gap = oven.gap.value;
  if (!fits(oven.height.value, section + 2 * clearance)) return load;
  const Room shelf{{}, {}, oven.width.value - 2 * clearance + gap, oven.depth.value - 2 * clearance + gap};
  lay(shelf, {section + gap, length + gap}, most_lines, load.places);
  move_to_middle(load, oven);
  return load;
}

}  // namespace blankwright
