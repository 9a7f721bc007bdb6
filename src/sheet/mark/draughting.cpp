#include "sheet/mark/draughting.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

constexpr Lettering frame_lettering = Lettering::hand;
constexpr Length symbol_cell = 6 * mm;

/// Where the line x + y = c crosses the edges of a closed path, as x.
void add_crossings(const Path& path, Length c, std::vector<Length>& xs) {
  for (std::size_t i = 0; i < path.size(); ++i) {
    const Spot& a = path.at(i);
    const Spot& b = path.at((i + 1) % path.size());
    const Length at_a = a.x + a.y;
    const Length at_b = b.x + b.y;
    if ((at_a <= c) == (at_b <= c)) continue;
    xs.push_back(a.x + (c - at_a) / (at_b - at_a) * (b.x - a.x));
  }
}

/// About a level line.
Path mirrored(Path path) {
  for (Spot& spot : path) spot.y = -spot.y;
  return path;
}

/// The symbols of ISO 1101, table 1, drawn about a middle.
void draw_symbol(Canvas& canvas, Spot middle, Tolerated what) {
  const auto at = [&](double right, double down) { return Spot{middle.x + right * mm, middle.y + down * mm}; };
  const auto stroke = [&](Spot from, Spot to) { canvas.line(from, to, wide_line); };
  switch (what) {
    case Tolerated::position:
      canvas.circle(middle, 1.3 * mm, wide_line);
      stroke(at(-2.1, 0), at(2.1, 0));
      stroke(at(0, -2.1), at(0, 2.1));
      break;
    case Tolerated::parallelism:
      stroke(at(-1.6, 1.6), at(0.2, -1.6));
      stroke(at(-0.2, 1.6), at(1.6, -1.6));
      break;
    case Tolerated::perpendicularity:
      stroke(at(-1.8, 1.5), at(1.8, 1.5));
      stroke(at(0, 1.5), at(0, -1.7));
      break;
    case Tolerated::run_out:
      stroke(at(-1.3, 1.5), at(1.3, -1.5));
      arrow(canvas, at(1.5, -1.75), at(-1.3, 1.5), 2 * mm);
      break;
  }
}

}  // namespace

void arrow(Canvas& canvas, Spot tip, Spot from, Length length) {
  const double distance = std::hypot((from.x - tip.x) / mm, (from.y - tip.y) / mm);
  BW_EXPECT(distance > 0);
  const double ux = (from.x - tip.x) / mm / distance;
  const double uy = (from.y - tip.y) / mm / distance;
  const Length half = std::tan(7.5 * std::numbers::pi / 180) * length;
  const Spot base{tip.x + ux * length, tip.y + uy * length};
  canvas.filled({tip, {base.x - uy * half, base.y + ux * half}, {base.x + uy * half, base.y - ux * half}});
}

void leader(Canvas& canvas, Path path) {
  BW_EXPECT(path.size() >= 2);
  arrow(canvas, path.back(), path.at(path.size() - 2));
  canvas.polyline(std::move(path), narrow_line);
}

void balloon(Canvas& canvas, Spot centre, int number) {
  canvas.circle(centre, balloon_radius);
  const Lettering size = number < 100 ? Lettering::hand : Lettering::note;
  canvas.text({centre.x, centre.y + canvas.capitals(size) / 2}, fmt::format("{}", number),
              {.size = size, .face = Face::bold, .align = Align::centre});
}

Length tolerance_frame_width(const Canvas& canvas, std::string_view tolerance) {
  return 2 * symbol_cell + canvas.width_of(tolerance, {.size = frame_lettering}) + 3 * mm;
}

void tolerance_frame(Canvas& canvas, Spot at, Length width, Tolerated what, std::string_view tolerance,
                     std::string_view datum) {
  const Length middle = at.y + frame_height / 2;
  canvas.rectangle({at.x, at.y, width, frame_height}, wide_line);
  for (const Length x : {at.x + symbol_cell, at.x + width - symbol_cell}) {
    canvas.line({x, at.y}, {x, at.y + frame_height}, wide_line);
  }
  draw_symbol(canvas, {at.x + symbol_cell / 2, middle}, what);
  const TextStyle style{.size = frame_lettering, .align = Align::centre};
  const Length baseline = middle + canvas.capitals(frame_lettering) / 2;
  canvas.text({at.x + width / 2, baseline}, tolerance, style);
  canvas.text({at.x + width - symbol_cell / 2, baseline}, datum, style);
}

namespace {

/// To the left (-1) or to the right of the line.
void datum_beside(Canvas& canvas, Spot on_line, std::string_view letter, double side) {
  const Length half = 2.6 * mm, apex = on_line.x + side * 2.6 * mm, near = apex + side * 0.4 * mm;
  canvas.filled({{on_line.x, on_line.y - 1.5 * mm}, {on_line.x, on_line.y + 1.5 * mm}, {apex, on_line.y}});
  canvas.line({apex, on_line.y}, {near, on_line.y});
  const Box box{side < 0 ? near - 2 * half : near, on_line.y - half, 2 * half, 2 * half};
  canvas.rectangle(box, wide_line);
  canvas.text({box.x + half, on_line.y + canvas.capitals(frame_lettering) / 2}, letter,
              {.size = frame_lettering, .align = Align::centre});
}

}  // namespace

void datum_feature(Canvas& canvas, Spot on_line, std::string_view letter) {
  datum_beside(canvas, on_line, letter, -1);
}
void datum_feature_right(Canvas& canvas, Spot on_line, std::string_view letter) {
  datum_beside(canvas, on_line, letter, 1);
}

void datum_feature_below(Canvas& canvas, Spot on_line, std::string_view letter) {
  const Length half = 2.6 * mm;
  const Length apex = on_line.y + 2.6 * mm;
  canvas.filled({{on_line.x - 1.5 * mm, on_line.y}, {on_line.x + 1.5 * mm, on_line.y}, {on_line.x, apex}});
  canvas.line({on_line.x, apex}, {on_line.x, apex + 0.4 * mm});
  const Box box{on_line.x - half, apex + 0.4 * mm, 2 * half, 2 * half};
  canvas.rectangle(box, wide_line);
  canvas.text({on_line.x, box.y + half + canvas.capitals(frame_lettering) / 2}, letter,
              {.size = frame_lettering, .align = Align::centre});
}

std::vector<Path> hatching(const Path& outline, std::span<const Path> holes, Length pitch, Slope slope) {
  BW_EXPECT(outline.size() >= 3 && pitch > 0 * mm);
  if (slope == Slope::falling) {
    std::vector<Path> mirrored_holes;
    for (const Path& hole : holes) mirrored_holes.push_back(mirrored(hole));
    std::vector<Path> lines = hatching(mirrored(outline), mirrored_holes, pitch);
    for (Path& line : lines) line = mirrored(line);
    return lines;
  }
  const auto [least, most] = std::minmax_element(outline.begin(), outline.end(),
                                                 [](const Spot& a, const Spot& b) { return a.x + a.y < b.x + b.y; });
  const Length step = std::numbers::sqrt2 * pitch;
  const Length end = most->x + most->y;
  std::vector<Path> lines;
  for (Length c = least->x + least->y + step / 2; c < end; c += step) {
    std::vector<Length> xs;
    add_crossings(outline, c, xs);
    for (const Path& hole : holes) add_crossings(hole, c, xs);
    std::sort(xs.begin(), xs.end());
    for (std::size_t i = 0; i + 1 < xs.size(); i += 2) {
      const Length from = xs.at(i);
      const Length to = xs.at(i + 1);
      if (to - from > 0.05 * mm) lines.push_back({{from, c - from}, {to, c - to}});
    }
  }
  return lines;
}

std::optional<std::vector<Length>> spread(std::span<const Length> wished, Length pitch, Length low, Length high) {
  if (wished.empty()) return std::vector<Length>{};
  const Length room = high - low - static_cast<double>(wished.size() - 1) * pitch;
  if (room < 0 * mm) return std::nullopt;
  // Less their pitches the labels only have to rise: neighbours that do not are pooled at their mean.
  struct Pool {
    Length sum;
    int count;
    Length mean() const { return sum / count; }
  };
  std::vector<Pool> pools;
  for (std::size_t i = 0; i < wished.size(); ++i) {
    pools.push_back({wished[i] - static_cast<double>(i) * pitch, 1});
    while (pools.size() > 1 && pools.at(pools.size() - 2).mean() > pools.back().mean()) {
      const Pool last = pools.back();
      pools.pop_back();
      pools.back() = {pools.back().sum + last.sum, pools.back().count + last.count};
    }
  }
  std::vector<Length> places;
  for (const Pool& pool : pools) {
    const Length at = std::clamp(pool.mean(), low, low + room);
    for (int i = 0; i < pool.count; ++i) places.push_back(at + static_cast<double>(places.size()) * pitch);
  }
  return places;
}

}  // namespace blankwright
