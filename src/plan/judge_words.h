#pragma once

#include <string>

#include "read/shop.h"

// How judgements write figures: in the shop's units.

namespace blankwright {

std::string in_units(Length length, const Shop& shop, Round round = Round::nearest,
                     Fineness fineness = Fineness::measured);
std::string in_units(Torque torque, const Shop& shop, Round round);  ///< to 0.01

/// A length to paste: in the shop's units, never less than what is needed.
std::string pasted(Length least, const Shop& shop);

}  // namespace blankwright
