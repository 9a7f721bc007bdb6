#include "sheet/paper/wording.h"

#include "sheet/paper/said_times.h"

namespace blankwright {

Wording wording_of(const Template& t) {
  return {t.spelling, [&t](const SentenceRow& row) { return t.gates.of(row); },
          [&t](const Zone& zone, Instant at) { return moment_text(t, zone, at); }};
}

}  // namespace blankwright
