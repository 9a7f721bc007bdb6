#pragma once

#include <optional>
#include <span>

#include "diagnose/place.h"
#include "measure/drill.h"
#include "measure/thread.h"
#include "plan/part/finished_form.h"

namespace blankwright {

/// Which drill makes the bore.
struct BoreDrill {
  Drill drill;
  Length glue_line;                     ///< that it leaves beside the stud; 0 when tapped
  std::optional<Share> thread_percent;  ///< of a tapped bore, of 5H/8 a side
};

/// The diameter wanted for a stud that is glued: major diameter + two glue lines.
Length glued_bore_least(const Thread& thread, Length glue_line);

/// The bore for a glued stud with the drill that was chosen. Source: geometry.
Worked<BoreDrill> glued_bore(const Thread& thread, const Given<Length>& glue_line, const Drill& drill);

/// The bore for a stud that is screwed into the wood. Percentages on the basis of 5H/8 a side (1.0825 P).
/// Source: Machinery's Handbook, tapping; limits of the minor diameter ASME B1.1, ISO 965-1.
Worked<BoreDrill> tapped_bore(const Thread& thread, const Drill& drill);

/// The drill for a tapped bore: among those owned, inside the limits of the internal minor diameter, the one nearest
/// to the chart's tap drill; where no chart has the thread, the thickest inside. None when none is inside.
std::optional<Drill> tap_drill_among(std::span<const Drill> owned, const Thread& thread);

struct BoreDepth {
  Length full;               ///< to the drill's lips, from the finished seat
  Length tip;                ///< to the drill's point, from the finished seat
  Length from_drilled_face;  ///< to the lips, from the face as it is when drilled: what the depth stop is set to
};

struct BoreDepthInput {
  Length drill;             ///< diameter, > 0
  Given<Angle> point;       ///< included angle of the drill's point, 60° to 180°
  Length embedded;          ///< of the stud in the wood, > 0
  Given<Length> reservoir;  ///< room for displaced glue behind the stud, >= 0
  Given<Length> facing;     ///< taken off the seat's end after boring, >= 0
};

/// How deep to drill.
///
///   full              = embedded + reservoir
///   tip               = full + (drill / 2) / tan(point / 2)
///   from_drilled_face = full + facing
///
/// Assumes a sharp, conical point: not for brad points. Source: geometry of the cone (0.300 × drill at 118°).
Worked<BoreDepth> bore_depth(const BoreDepthInput& in);

struct BoreWalls {
  Length least_wall;  ///< between bore and finished form, the drill's cone included
  Length wall_at;     ///< where that is
  Length web;         ///< left behind the drill's point
};

struct BoreWallsInput {
  const FinishedForm& form;
  Length drill;      ///< diameter, > 0
  Length glue_line;  ///< between bore and stud, >= 0
  Length embedded;   ///< of the stud in the wood, > 0
  BoreDepth depth;
};

/// What wood the bore leaves. The form is turned about the stud's axis. The bore's stands off from that by the glue
/// line at most as far as the stud reaches, and behind the stud, where a leaning one goes on leaning, by
///   glue line × (2 z / embedded − 1)
/// Source: geometry.
Worked<BoreWalls> bore_walls(const BoreWallsInput& in);

}  // namespace blankwright
