#pragma once

#include "chains.h"

namespace calendar_rules {

/// How long something takes at least, by the shop file and the orders' plans.
Minutes least_length(const Planned& planned, const Chain& chain, const Doing& doing, int pieces);

/// How long somebody is at its beginning; the same at its end where it is at both.
Minutes hands_time(const Operation& op, Minutes length);

/// May it run while nobody is in the shop?
bool runs_alone(const Planned& planned, const Doing& doing);

/// In the drying oven at least, without the time between the two weighings: manual, `drying.times`.
Minutes drying_time(const Shop& shop, double section_mm);

/// Under vacuum once its target was reached, of what was placed or entered: the vacuum that the soak of a chain
/// shares.
Minutes held(const Planned& planned, const Chain& chain);

}  // namespace calendar_rules
