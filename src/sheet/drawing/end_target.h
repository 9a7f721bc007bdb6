#pragma once

#include <optional>
#include <vector>

#include "sheet/frame/actual_size.h"

namespace blankwright {

struct TargetRing {
  Word name;
  Length diameter;
  Length line;  ///< its width; the middle of it counts
  Dash dash = Dash::solid;
};

/// A target to glue on an end of the squared blank.
struct EndTarget {
  bool seat = true;  ///< else of the tail
  Length square;     ///< side of the blank's section
  std::vector<TargetRing> rings;
};

/// Pilot hole, position tolerance Ø 2 e*, bore, finished diameter at the seat, and that with the allowance for the
/// finish on either side.
EndTarget seat_target(const Dossier& dossier);
/// The last two of these at the tail. There is no hole: after gluing, the tail centre finds its own mark.
EndTarget tail_target(const Dossier& dossier);

/// The ticks on a target's arms, counted from the square's edge: millimetres, or 1/32 in.
Length tick_pitch(UnitSystem units);
/// How far outside the square the long one of them stands.
Length long_tick(UnitSystem units);

/// What a target wants on paper: the printed square with the arms past it.
Box target_room(const EndTarget& target, const PrinterCorrection& correction);

/// Does a ring of that diameter find room in a target's box?
bool ring_fits(const Box& box, const PrinterCorrection& correction, Length diameter);
/// Does the square of that side with its arms?
bool square_fits(const Box& box, const PrinterCorrection& correction, Length side);

/// Draws a target into a box as target_room() wants it; where that is larger than the sheet, what finds no room in
/// the box is left out. With the blank's ID, or a field to write it into.
void draw_target(Canvas& canvas, const Dossier& dossier, const EndTarget& target, const Box& box,
                 const std::optional<BlankId>& blank);

}  // namespace blankwright
