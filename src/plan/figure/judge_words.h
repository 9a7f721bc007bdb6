#pragma once

#include <string>

#include "read/shop.h"

// How judgements write figures: in the shop's units.

namespace blankwright {

std::string in_units(Length length, const Shop& shop, Round round = Round::nearest,
                     Fineness fineness = Fineness::measured);

/// As a caliper shows it, and as a rule does.
Printed measured(Length length, const Shop& shop, Round round = Round::nearest);
Printed sawn(Length length, const Shop& shop, Round round = Round::nearest);

/// A length to paste: in the shop's units, never less than what is needed, or never more.
Printed pasted(Length length, const Shop& shop, Round round = Round::up);

}  // namespace blankwright
