#pragma once

#include "measure/thread.h"
#include "plan/figure/worked.h"

namespace blankwright {

/// Shear strength as a part of tensile strength where no shear strength is known: 1/√3 (von Mises).
inline constexpr double shear_of_tensile = 0.577;

/// Longest engagement that is counted, in diameters: the first turns carry most of the load. Common practice, no
/// source.
inline constexpr double most_engaged_diameters = 1.5;

// Areas in which threads shear off over the length engaged, at the worst sizes of a stud 2A or 6g in a hole 2B or 6H
// (thread_limits). A hole drilled larger than that, or worn threads, bear less. Source: FED-STD-H28/2B and
// Machinery's Handbook, with 1/n = P; 0.57735 is tan 30°.

/// Of the hole's thread, cut by the stud's crests:  ASn = π engaged Ds (1/2 + 0.57735 (Ds − En)/P)
/// Ds least major diameter of the stud, En largest pitch diameter of the hole.
Traced<Area> internal_shear_area(const Thread& thread, const Traced<Length>& engaged);

/// Of the stud's thread, cut by the hole's crests:  ASs = π engaged Kn (1/2 + 0.57735 (Es − Kn)/P)
/// Kn largest minor diameter of the hole, Es least pitch diameter of the stud.
Traced<Area> external_shear_area(const Thread& thread, const Traced<Length>& engaged);

}  // namespace blankwright
