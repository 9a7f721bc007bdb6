#pragma once

#include "chains.h"

namespace calendar_rules {

// Each adds what of its rules is broken. The rules are those of the manual ("The plan follows the work", the keys of
// the routing) and of the trade; nothing here knows how a plan is made.

/// Nobody works outside their hours or twice at once; vessels, ovens and machines hold one thing at a time and
/// nothing while they are out of order; what needs somebody there has somebody there; nothing begins before the plan.
void check_time(const Planned& planned, const std::vector<Chain>& chains, Breaches& out);

/// Each operation takes as long as it has to and no longer than it may, and whoever is to be at it is.
void check_lengths(const Planned& planned, const std::vector<Chain>& chains, Breaches& out);

/// One operation after the other, none later after the one before it than it may wait.
void check_order(const Planned& planned, const std::vector<Chain>& chains, Breaches& out);

/// What lies in baths and loads: each blank in one of either, no more than find room, in an oven that takes them and
/// gets hot enough, a witness where one is wanted.
void check_fillings(const Planned& planned, const std::vector<Chain>& chains, Breaches& out);

/// Each order is done when its last operation is, is late by that, and lacks none.
void check_orders(const Planned& planned, Breaches& out);

/// What was entered stands as it was entered, what goes on is not moved, and all else is planned for each blank once.
void check_standing(const Planned& planned, Breaches& out);

/// All of them.
Breaches broken_rules(const Planned& planned);

}  // namespace calendar_rules
