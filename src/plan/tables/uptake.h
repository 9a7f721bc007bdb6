#pragma once

#include <string_view>

#include "measure/quantity.h"
#include "read/order.h"

namespace blankwright {

/// Which part of the void space usually fills with resin.
struct UsualFill {
  Share low, high;
};

/// By the wood's condition; `species` as the species table has it. Woods whose heartwood is closed (white oak,
/// locust, teak ...) take far less while they are sound, and nobody can tell how far decay has opened them. Common
/// practice, no source, from memory; that sapwood fills far more than heartwood is in the Wood Handbook, ch. 19. What
/// the shop has measured goes before it.
UsualFill usual_fill(WoodCondition condition, std::string_view species);

/// What is usually lost of sound wood's density: spalted 15 %, punky 35 %; of burl nothing, it is as dense or denser.
/// Common practice, no source, from memory: such wood departs strongly from any table, so a measured density goes
/// before it.
Share usual_loss(WoodCondition condition);

}  // namespace blankwright
