#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/mark/canvas.h"
#include "sheet/paper/turner_facts.h"

namespace blankwright {

struct DrawingScale {
  double factor = 1;
  std::string_view text;
};

/// The scales of ISO 5455 that a handle may be drawn to, the largest first.
std::span<const DrawingScale> drawing_scales();

/// What is written round the handle, in the words of the template and the units of the shop.
struct DrawingWords {
  std::string thread;             ///< "Stud M8×1.25 × 50"
  std::string position;           ///< "Ø1.24"
  std::string projection;         ///< "14"
  std::string metal_zone;         ///< "Metal zone 24"
  std::vector<std::string> bore;  ///< "Bore Ø9 – 30 deep", "Reservoir 6"
  std::string seat;               ///< "Seat", "Seat, spigot Ø20 × 3", "Seat, recess Ø20 – 3 deep"
  std::string ferrule;            ///< "Ferrule Ø27 × 12, glued on, wood under it Ø25", or nothing
};
DrawingWords drawing_words(const Dossier& dossier);

/// The largest diameter drawn: of the form, or of the ferrule over it.
Length largest_drawn(const Dossier& dossier);

/// How far wood stands out before the seat: the spigot's height, or nothing.
Length spigot_height(const Order& order);

/// What stands at a station: both its dimensions, or its number only, which leads into the table.
enum class StationLabels { dimensions, numbers };

/// Where everything stands. Lengths on paper; y from the axis downwards, x from the seat to the right.
struct DrawingLayout {
  DrawingScale scale;
  StationLabels labels = StationLabels::dimensions;
  Length capitals;                    ///< of the labels
  bool staggered = false;             ///< every second number stands higher
  std::vector<std::size_t> labelled;  ///< which of the stations, rising
  std::vector<Length> label_x;        ///< of each of these
  Length jog;                         ///< height in which a line goes over from its station to its label
  Length label_base;                  ///< y from which labels above go upwards
  Length label_length;                ///< of the longest one
  Length thread_line;                 ///< y of the line that the thread's callout hangs from
  Length datum;                       ///< y of the datum's triangle
  Length running;                     ///< y of the running dimension, or of the lower edge of all
  std::optional<Box> bore_text;       ///< in the wood or behind the tail; else it hangs under the stud
  Length left, right;                 ///< room wanted on the left and on the right of the seat
  Length above, below;                ///< room wanted over and under the axis
};

/// The largest scale at which the drawing finds room, with both dimensions at every station where they can be told
/// apart, else with their numbers. None where there is no room at all.
std::optional<DrawingLayout> drawing_layout(const Canvas& canvas, const Dossier& dossier,
                                            std::span<const SheetStation> stations, Length width, Length height);

/// How words beside the part are set: at callout_capitals, smaller where they would take too much of the width.
TextStyle callout_style(const Canvas& canvas, std::string_view words, Align align = Align::left);

// Sizes that the layout and the drawing share.
inline constexpr Length callout_capitals = 2.5 * mm;
inline constexpr Length bore_text_step = 4 * mm;
inline constexpr Length projection_line = 10 * mm;  ///< its dimension line from the stud
inline constexpr Length view_title_height = 10 * mm;
inline constexpr Length metal_words_gap = 6 * mm;  ///< from the stud's end
inline constexpr Length number_gap = 0.8 * mm;     ///< between a label and its line
inline constexpr Length balloon_gap = 1.2 * mm;    ///< between a label and its number
inline constexpr Length stagger = 4.6 * mm;

}  // namespace blankwright
