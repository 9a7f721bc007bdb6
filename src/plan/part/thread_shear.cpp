#include "plan/part/thread_shear.h"

#include <numbers>

#include "plan/figure/working.h"
#include "plan/tables/threads.h"

namespace blankwright {
namespace {

/// The cylinder in which the thread is cut off, less the gaps between its turns. `high` is the larger diameter.
Traced<Area> shear_area(const Thread& thread, const Traced<Length>& engaged, const Traced<Length>& cut_at,
                        const Traced<Length>& high, const Traced<Length>& low) {
  const auto filled =
      term(0.5) + term(0.57735) * (high - low) / term(Term::thread_pitch, thread.pitch, TermFrom::thread);
  return term(Term::pi, std::numbers::pi) * engaged * cut_at * filled;
}

}  // namespace

Traced<Area> internal_shear_area(const Thread& thread, const Traced<Length>& engaged) {
  const ThreadLimits limits = thread_limits(thread);
  const auto crest = term(Term::stud_major_least, limits.stud_major_least, TermFrom::stud_major_limit);
  const auto pitch = term(Term::hole_pitch_most, limits.hole_pitch_most, TermFrom::hole_pitch_limit);
  return shear_area(thread, engaged, crest, crest, pitch);
}

Traced<Area> external_shear_area(const Thread& thread, const Traced<Length>& engaged) {
  const ThreadLimits limits = thread_limits(thread);
  const auto crest = term(Term::hole_minor_most, limits.hole_minor_most, TermFrom::hole_minor_limit);
  const auto pitch = term(Term::stud_pitch_least, limits.stud_pitch_least, TermFrom::stud_pitch_limit);
  return shear_area(thread, engaged, crest, pitch, crest);
}

}  // namespace blankwright
