#include "entries/refusal.h"

namespace blankwright {

bool can_be_overridden(Refused why) {
  return why != Refused::unknown && why != Refused::replaced_before && why != Refused::nothing;
}

}  // namespace blankwright
