#pragma once

#include <vector>

#include "shop.h"

namespace calendar_rules {

/// What such a shop does to its blanks, in order.
std::vector<Operation> routing_by_chance(Chance& chance, const Shop& shop);

}  // namespace calendar_rules
