#include "plan/part/thread_shear.h"

#include <numbers>

#include "plan/figure/working.h"
#include "plan/tables/threads.h"

namespace blankwright {
namespace {

/// The cylinder in which the thread is cut off, less the gaps between its turns. `high` is the larger diameter.
Said<Area> shear_area(const Thread& thread, const Said<Length>& engaged, const Said<Length>& cut_at,
                      const Said<Length>& high, const Said<Length>& low) {
  const auto filled = said(0.5) + said(0.57735) * (high - low) / said("P", thread.pitch, "thread");
  return said("π", std::numbers::pi) * engaged * cut_at * filled;
}

}  // namespace

Said<Area> internal_shear_area(const Thread& thread, const Said<Length>& engaged) {
  const ThreadLimits limits = thread_limits(thread);
  const auto crest = said("Ds", limits.stud_major_least, "least major diameter of the stud, 2A or 6g");
  const auto pitch = said("En", limits.hole_pitch_most, "largest pitch diameter of the hole, 2B or 6H");
  return shear_area(thread, engaged, crest, crest, pitch);
}

Said<Area> external_shear_area(const Thread& thread, const Said<Length>& engaged) {
  const ThreadLimits limits = thread_limits(thread);
  const auto crest = said("Kn", limits.hole_minor_most, "largest minor diameter of the hole, 2B or 6H");
  const auto pitch = said("Es", limits.stud_pitch_least, "least pitch diameter of the stud, 2A or 6g");
  return shear_area(thread, engaged, crest, pitch, crest);
}

}  // namespace blankwright
