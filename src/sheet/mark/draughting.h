#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "sheet/mark/canvas.h"

namespace blankwright {

// Elements of technical drawings, drawn with strokes and fills because fonts have few of them.

inline constexpr Length arrow_length = 3.5 * mm;
inline constexpr Length balloon_radius = 2.6 * mm;
inline constexpr Length frame_height = 6 * mm;  ///< of a feature control frame: twice its capitals, ISO 1101

/// A filled arrowhead of 15° included angle, its tip at `tip`, coming from `from` (another place than the tip).
void arrow(Canvas& canvas, Spot tip, Spot from, Length length = arrow_length);

/// A narrow line with an arrowhead at its last corner; at least two corners.
void leader(Canvas& canvas, Path path);

/// A characteristic's number in a circle, as the inspection rows have it.
void balloon(Canvas& canvas, Spot centre, int number);

/// What a frame of ISO 1101 limits.
enum class Tolerated { position, parallelism, perpendicularity, run_out };
/// Such a frame of that width: the symbol, the tolerance, the datum's letter.
void tolerance_frame(Canvas& canvas, Spot top_left, Length width, Tolerated what, std::string_view tolerance,
                     std::string_view datum);
/// The least width that it has room in.
Length tolerance_frame_width(const Canvas& canvas, std::string_view tolerance);

/// A datum's letter in a box whose filled triangle stands on an upright line at `on_line`, from its left.
/// ISO 5459.
void datum_feature(Canvas& canvas, Spot on_line, std::string_view letter);
/// The same from its right, and under a level line.
void datum_feature_right(Canvas& canvas, Spot on_line, std::string_view letter);
void datum_feature_below(Canvas& canvas, Spot on_line, std::string_view letter);
inline constexpr Length datum_feature_width = 8.2 * mm;

/// Which way hatching runs: parts that lie against each other are told apart by it.
enum class Slope { rising, falling };
/// Lines under 45°, `pitch` apart, inside the outline and outside the holes. The holes lie inside the outline (they
/// may share an edge with it) and apart from each other.
std::vector<Path> hatching(const Path& outline, std::span<const Path> holes, Length pitch,
                           Slope slope = Slope::rising);

/// Places for labels that keep `pitch` from each other, as near to the wished ones as that allows, in [low, high].
/// The wishes rise. None when they do not all find room.
std::optional<std::vector<Length>> spread(std::span<const Length> wished, Length pitch, Length low, Length high);

}  // namespace blankwright
