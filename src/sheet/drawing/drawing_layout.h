#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/drawing/handle_section.h"
#include "sheet/mark/canvas.h"
#include "sheet/paper/turner_facts.h"

namespace blankwright {

struct DrawingScale {
  double factor = 1;
  std::string_view text;
};

/// The scales of ISO 5455 that a handle may be drawn to, the largest first.
std::span<const DrawingScale> drawing_scales();

/// The largest diameter drawn: of the form, or of the ferrule over it.
Length largest_drawn(const Dossier& dossier);

/// How far wood stands out before the seat: the spigot's height, or nothing.
Length spigot_height(const Order& order);

/// What stands at a station: both its dimensions, or its number only, which leads into the table.
enum class StationLabels { dimensions, numbers };

/// Where the words of the bore stand: over and under the line that their leader goes on from, with datum B. Its
/// leader goes to the drill's point, from the tail along the axis.
struct BorePlace {
  Box box;           ///< from the drill's point or the tail on
  Length reference;  ///< y of that line
  bool in_wood = false;
  bool datum_below = true;  ///< else behind the words
  Face face = Face::regular;
  bool enlarged = true;  ///< by the template's lettering
};

/// Where everything stands. Lengths on paper; y from the axis downwards, x from the seat to the right.
struct DrawingLayout {
  DrawingScale scale;
  StationLabels labels = StationLabels::dimensions;
  Lettering size = Lettering::machine;  ///< of the labels
  bool staggered = false;               ///< every second number stands higher
  std::vector<std::size_t> labelled;    ///< which of the stations, rising
  std::vector<Length> label_x;          ///< of each of these
  Length jog;                           ///< height in which a line goes over from its station to its label
  Length label_base;                    ///< y from which labels above go upwards
  Length label_length;                  ///< of the longest one
  std::vector<LeftOut> left_out;        ///< of a long handle, behind its bore
  Length projection;                    ///< y of the stud's dimension, over the axis
  Length thread_line;                   ///< y of the line that the thread's callout hangs from
  std::size_t ferrule_lines = 0;        ///< of its words, over that dimension
  Length seat_frame;                    ///< y of the middle of the frame of its squareness
  bool title_beside = false;            ///< the view's title stands right of the seat, beside the frames
  Length running;                       ///< y of the running dimension, or of the lower edge of all
  bool true_size = false;               ///< there is a bar to measure under all
  std::optional<BorePlace> bore;        ///< where its words stand; else they hang under the stud
  Length left, right;                   ///< room wanted on the left and on the right of the seat
  Length above, below;                  ///< room wanted over and under the axis
};

/// The largest scale at which the drawing finds room, with both dimensions at every station where they can be told
/// apart, else with their numbers. None where there is no room at all.
/// `largest_scale` is the most that it may be.
std::optional<DrawingLayout> drawing_layout(const Canvas& canvas, const Dossier& dossier,
                                            std::span<const SheetStation> stations, Length width, Length height,
                                            double largest_scale);

/// How words beside the part are set: in the narrow face and smaller where they would take too much of the width.
TextStyle callout_style(const Canvas& canvas, std::string_view words, Align align = Align::left);

/// What the thread's callout takes up below its line.
Length thread_text_height(const Canvas& canvas);

/// Do words of that width, of the seat, stand below the frame of its squareness, and not left of it?
bool stands_below(Length seat_words);

// Sizes that the layout and the drawing share.
inline constexpr double callout_step = 1.6;        ///< from line to line, in heights of the capitals
inline constexpr Length projection_line = 6 * mm;  ///< its dimension line from the client's part
inline constexpr Length view_title_height = 5 * mm, least_view_title = 108 * mm, bar_height = 5 * mm;
inline constexpr Length before_seat = 4 * mm;      ///< of the frames from the wood: the origin of lengths is there
inline constexpr Length seat_leader = 5 * mm;      ///< from the frame of its squareness
inline constexpr Length ferrule_words = 6.5 * mm;  ///< the lowest of them from the projection's dimension line
inline constexpr Length bore_leader = 5 * mm;      ///< from the drill's point, or the tail, to the bore's words
inline constexpr Length leader_room = 1.5 * mm;    ///< to either side of one that goes through the wood
inline constexpr Length number_gap = 0.8 * mm;     ///< between a label and its line
inline constexpr Length balloon_gap = 1.2 * mm;    ///< between a label and its number
inline constexpr Length stagger = 4.6 * mm;

}  // namespace blankwright
