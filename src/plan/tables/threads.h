#pragma once

#include <optional>
#include <string_view>

#include "measure/drill.h"
#include "measure/quantity.h"
#include "measure/thread.h"

namespace blankwright {

// Basic sizes of the 60° profile (ISO 68-1, ASME B1.1), from major diameter D and pitch P.

/// Basic pitch diameter, D − 0.649519 P.
Length pitch_diameter(const Thread& thread);

/// Basic minor diameter of the internal thread, D − 1.082532 P.
Length internal_minor_diameter(const Thread& thread);

/// Minor diameter of the stud, for bending. Metric: d3 = d − 1.226869 P (ISO 898-1). Unified: that of the rounded
/// root, D − 1.190785 P, which gives the figures tabled in ASME B1.1.
Length external_minor_diameter(const Thread& thread);

/// What is taken off the major diameter for the tensile stress area, in pitches: 0.9382 metric (ISO 898-1), 0.9743
/// unified (ASME B1.1 app. B).
double stress_area_factor(const Thread& thread);

/// Tensile stress area. Metric: π/4 (d − 0.9382 P)² (ISO 898-1). Unified: π/4 (D − 0.9743 P)² (ASME B1.1 app. B,
/// steels up to 100 ksi). The two constants must not be mixed: the metric one overstates 1/4-20 by 1.8 %.
Area tensile_area(const Thread& thread);

/// The limits that stripping and tapping are judged by: a stud of class 2A or 6g in a hole of class 2B or 6H,
/// whatever class the designation names.
///
/// Unified: tolerance formulas of ASME B1.1 section 5, engagement = D (as in engineering practice; the standard
/// rounds each term, so allow 0.0002 in, 0.0005 in for the minor diameter). Metric: formulas of ISO 965-1, rounded to
/// the R 40 series of preferred numbers (ISO 3) as the standard does; from memory. They give the tabled deviation and
/// tolerances for M4 to M12 that could be checked: es, Td, Td2 of 6g and TD1 of 6H, 265 µm (M8), 300 (M10), 335
/// (M12). TD2 is rounded up, the safe side for stripping: the table departs from nearest rounding there. At P = 0.5
/// mm TD1 is 132 µm where the table has 140 (from memory): on the safe side.
struct ThreadLimits {
  Length stud_major_least;
  Length stud_pitch_least;
  Length hole_minor_least;  ///< the basic one
  Length hole_minor_most;
  Length hole_pitch_most;
};
ThreadLimits thread_limits(const Thread& thread);

/// Can the thread be tapped into that hole: is it inside the limits of the internal minor diameter, within
/// drill_slack?
bool is_tap_hole(const Thread& thread, Length hole);

/// What "75 % of thread" is a percentage of. A figure without its basis says nothing: 75 % on the second is 90 % on
/// the first.
enum class PercentBasis {
  internal_thread,  ///< 5H/8 a side, 1.08253 P: the basic internal thread (Machinery's Handbook, text formula)
  national_form,  ///< 1.29904 P: the old form that printed tap charts mean (Machinery's Handbook 31, p. 2155 table 2)
};
std::string_view name_of(PercentBasis basis);

/// How much of the thread's height a hole leaves: (D − hole) / (1.08253 P or 1.29904 P).
Share percent_of_thread(const Thread& thread, Length hole, PercentBasis basis);

/// The hole that leaves that much of the thread's height.
Length hole_for_percent(const Thread& thread, Share height, PercentBasis basis);

/// The tap drill that charts name for the thread, and the chart; none for a thread that no chart here has.
struct TapDrill {
  Drill drill;
  std::string_view source;
};
std::optional<TapDrill> conventional_tap_drill(const Thread& thread);

}  // namespace blankwright
