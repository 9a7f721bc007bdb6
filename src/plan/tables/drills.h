#pragma once

#include <optional>
#include <span>

#include "measure/drill.h"
#include "measure/quantity.h"

namespace blankwright {

/// What a drill may lack of the least diameter: covers the conversion of units, and nothing that could be measured.
inline constexpr Length drill_slack = 1e-3 * mm;

/// The thinnest of the drills owned that is at least `least` thick, within drill_slack; never a thinner one. Among
/// equals the first listed. None where all are too thin.
std::optional<Drill> next_drill_up(std::span<const Drill> owned, Length least);

/// Length of a drill's conical point along the axis: (drill / 2) / tan(included / 2). drill >= 0, included 60° to
/// 180°; otherwise BW_EXPECT. For sharp cones, not for brad points. Source: geometry of the cone (0.3004 × drill at
/// 118°).
Length point_length(Length drill, Angle included);

}  // namespace blankwright
