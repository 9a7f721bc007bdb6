#pragma once

#include <string>

#include "read/shop.h"

// How judgements write figures: in the shop's units.

namespace blankwright {

std::string in_units(Length length, const Shop& shop, Round round = Round::nearest,
                     Fineness fineness = Fineness::measured);

/// A length to paste: in the shop's units, never less than what is needed.
std::string pasted(Length least, const Shop& shop);

}  // namespace blankwright
