#pragma once

#include <optional>

#include "sheet/dossier.h"

namespace blankwright {

/// The day from which the resin left over from a bath ages: that of the bath as planned, or, where resin that had
/// been activated earlier went in, that of the oldest on hand. None where neither is known.
std::optional<Date> activated_on(const Dossier& dossier, const PlannedBath& bath);

/// The last day on which it may be used: activated_on() and the data sheet's storage life, in whole days. None where
/// the shop's file does not give that.
std::optional<Date> use_by(const Dossier& dossier, const PlannedBath& bath);

}  // namespace blankwright
