#include "plan/part/thread_shear.h"

#include <numbers>

#include "plan/figure/working.h"
#include "plan/tables/threads.h"

namespace blankwright {
namespace {

/// The cylinder in which the thread is cut off, less the gaps between its turns. `high` is the larger diameter.
Traced<Area> shear_area(const Thread& thread, const Traced<Length>& engaged, const Traced<Length>& cut_at,
                        const Traced<Length>& high, const Traced<Length>& low) {
  const auto filled = term(0.5) + term(0.57735) * (high - low) / term("P", thread.pitch, "thread");
  return term("π", std::numbers::pi) * engaged * cut_at * filled;
}

}  // namespace

Traced<Area> internal_shear_area(const Thread& thread, const Traced<Length>& engaged) {
  const ThreadLimits limits = thread_limits(thread);
  const auto crest = term("Ds", limits.stud_major_least, "least major diameter of the stud, 2A or 6g");
  const auto pitch = term("En", limits.hole_pitch_most, "largest pitch diameter of the hole, 2B or 6H");
  return shear_area(thread, engaged, crest, crest, pitch);
}

Traced<Area> external_shear_area(const Thread& thread, const Traced<Length>& engaged) {
  const ThreadLimits limits = thread_limits(thread);
  const auto crest = term("Kn", limits.hole_minor_most, "largest minor diameter of the hole, 2B or 6H");
  const auto pitch = term("Es", limits.stud_pitch_least, "least pitch diameter of the stud, 2A or 6g");
  return shear_area(thread, engaged, crest, pitch, crest);
}

}  // namespace blankwright
