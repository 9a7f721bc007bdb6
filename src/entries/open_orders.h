#pragma once

#include <map>
#include <set>
#include <span>
#include <string>

#include "entries/blank_summary.h"

namespace blankwright {

/// The orders that are not through: those of which fewer pieces were sent than their client wants, and which have a
/// blank that was not withdrawn; and those of which a blank more is in a bath or an oven. `wanted`: pieces by order; one that is missing is open as long as a blank of it is in
/// the shop.
std::set<std::string> open_orders(std::span<const KnownBlank> blanks, const std::map<std::string, int>& wanted);

}  // namespace blankwright
