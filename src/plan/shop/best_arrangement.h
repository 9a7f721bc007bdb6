#pragma once

#include "plan/shop/arrangement.h"

namespace blankwright {

/// The best way to plan orders that is found: those that are late, together, as little as can be; then the last one
/// finished early; then each. What holds a place stays as it is planned unless some of it is late. Which orders share
/// baths, and in which sequence blocks are placed, is tried from the rule's on (one bath for what fits in it, the
/// most urgent first; light dyes before dark ones, or by date): so many blocks placed at most, by numbers that are
/// drawn alike on every machine. Of ways as good, the one that was tried first.
Arrangement best_arrangement(const ToPlan& given, Diagnostics& out);

}  // namespace blankwright
