#pragma once

#include <vector>

#include "plan/part/blank_size.h"
#include "plan/process/cure.h"
#include "read/order.h"

namespace blankwright {

/// Do the pairs of every oven's calibration rise in dial and shown?
bool ovens_make_sense(const Shop& shop, Diagnostics& out);

/// The ovens that cure this resin and take such a blank, dry and, where it is sawn here, as it goes in to dry; as the
/// shop lists them. One without a calibration is among them only as the first. Where none does, what each of them
/// lacks is said; without any oven in the shop file it is a warning that no cure is planned. The calibrations make
/// sense; the blank's dry section and length are known.
std::vector<const OvenFacts*> judge_ovens(const Order& order, const Shop& shop, const ResinFacts& resin,
                                          const BlankSize& blank, Diagnostics& out);

/// The ovens in which a blank of an order that is not cured is dried: they take it as it is sawn, and get as hot as
/// wood is dried; where none is known to, the first that takes it. Where none does, what each of them lacks is said.
/// None also where the shop has no oven, or its routing has none that such an order goes into.
std::vector<const OvenFacts*> judge_drying_ovens(const Shop& shop, const BlankSize& blank, Diagnostics& out);

/// The cure against the resin's data sheet.
void judge_cure(const Cure& cure, const Order& order, const Shop& shop, const ResinFacts& resin, Diagnostics& out);

}  // namespace blankwright
