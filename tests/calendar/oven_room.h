#pragma once

#include "shop.h"

namespace calendar_rules {

/// How many blanks lie in an oven at most, with its clearance to the walls and a gap between each other: found by
/// trying every straight cut across what is free, again and again, along and across. 0 where none does.
int oven_room(const Oven& oven, double section_mm, double length_mm);

}  // namespace calendar_rules
