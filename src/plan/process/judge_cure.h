#pragma once

#include "plan/part/blank_size.h"
#include "plan/process/cure.h"
#include "read/order.h"

namespace blankwright {

/// Do the pairs of every oven's calibration rise in dial and shown?
bool ovens_make_sense(const Shop& shop, Diagnostics& out);

/// The first oven that cures this resin and takes such a blank, dry and, where it is sawn here, as it goes in to dry.
/// Where none does, what each of them lacks is said; without any oven in the shop file it is a warning that no cure
/// is planned. The calibrations make sense; the blank's dry section and length are known.
const OvenFacts* judge_oven(const Order& order, const Shop& shop, const ResinFacts& resin, const BlankSize& blank,
                            Diagnostics& out);

/// The first oven in which a blank of an order that is not cured is dried: it takes it as it is sawn, and gets as hot
/// as wood is dried; where none is known to, the first that takes it. Where none does, what each of them lacks is
/// said. Null also where the shop has no oven, or its routing has none that such an order goes into.
const OvenFacts* judge_drying_oven(const Shop& shop, const BlankSize& blank, Diagnostics& out);

/// The cure against the resin's data sheet.
void judge_cure(const Cure& cure, const Order& order, const Shop& shop, const ResinFacts& resin, Diagnostics& out);

}  // namespace blankwright
