#pragma once

#include <optional>
#include <string>

#include "plan/process/bath.h"
#include "read/order.h"

// Judgements of the bath: the shop's vessels and resins, what an order wants of them.

namespace blankwright {

/// Are the vessels described well enough to be filled, is the ballast heavier than every resin, and is the activated
/// resin on hand one of the shop's? Before bath(), which counts on it; said once for a run.
bool vessels_make_sense(const Shop& shop, Diagnostics& out);

/// The resin of the order's treatment, if a bath can be planned with it: does the shop know the resin and the dye,
/// and has it a vessel? Null without a vessel, which is a warning: the order is planned without its bath.
const ResinFacts* judge_treatment(const Order& order, const Shop& shop, Diagnostics& out);

/// Says of a blank that bath_capacity() has found no room for what keeps it out of the vessel that comes nearest, and
/// what would do: surely, since the blank's whole volume is taken as the resin that it draws in, and its whole
/// displacement as what ballast has to hold down. Sizes oven-dry; judge_treatment() has passed.
void judge_vessel(Length section, Length length, const Order& order, const Shop& shop, Diagnostics& out);

/// Do the blanks sink by themselves? That happens, but rarely: a note asks for a second look at the densities.
void judge_float(const BathBlanks& one, const Order& order, const Shop& shop, const ResinFacts& resin,
                 Diagnostics& out);

struct ActivatedResin {
  Volume amount{};
  std::optional<Date> oldest{};  ///< when the oldest of it was activated
};

/// The activated resin on hand of that resin and dye that is not older than the data sheet's storage life on that
/// day. What is older is told and not counted; without a storage life all of it counts.
ActivatedResin usable_on_hand(const Shop& shop, const ResinFacts& resin, const std::optional<std::string>& dye,
                              Date today, Diagnostics& out);

}  // namespace blankwright
