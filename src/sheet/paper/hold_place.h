#pragma once

#include <string>

#include "sheet/paper/dossier.h"

namespace blankwright {

/// Where the signature stands that releases a hold.
enum class HoldPlace { routing, bath_card, oven_card, inspection };

/// The one place at which the hold of the n-th operation of the order's routing is signed: where the hand is that
/// does the work. That of the vacuum on the bath's card, that of the cure on the oven's, those of who bores, when
/// bath and oven are over, on the back of the turner's sheet; all others, and those whose sheet the template leaves
/// out, in their row of the routing.
HoldPlace hold_place(const Dossier& dossier, std::size_t n);

/// What has to be true before that work goes on, in the shop's words; in the template's where the shop names none.
std::string hold_words(const Dossier& dossier, PlannedWork work, Word otherwise);

}  // namespace blankwright
