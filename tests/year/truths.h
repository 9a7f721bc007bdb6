#pragma once

#include <string>

#include "judge.h"
#include "order.h"
#include "shop.h"
#include "wood.h"

namespace simulated {

struct Known {
  Truth truth = Truth::good;
  std::string what;
  bool shown = true;  ///< by what was read, with its errors: otherwise a HOLD is true of the entries
};

/// The worse of two.
Known both(const Known& a, const Known& b);

/// May it go into the bath? Above about 2 % of moisture water boils off under the vacuum and keeps resin out; wood
/// warmer than the resin's storage temperature by more than 15 K begins the cure in the bath. Common practice, no
/// source. Errors: half a hundredth of moisture, as two weighings of 0.1 g on 40 g show it; how fast this very piece
/// of wood takes up water, which nobody knows: as the fastest of its kind, and that to a third. Two weighings that
/// differ as wet wood's do (EN 13183-1) show it to be wet.
Known dry_truth(const Blank& blank, const Shop& shop, double hours_out_of_oven);

/// Is it as full as the shop asks? Errors: two weighings, three sides, the film that stays when it is wiped.
Known resin_truth(const Blank& blank, const Shop& shop);

/// Was its core as warm as the resin's data sheet asks, for as long? Error: the thermometer's 1 K, and half a one for
/// the swing of the air that it shows.
Known cure_truth(const Blank& blank, const Shop& shop);

/// Does the form lie in the wood about the axis that the blank has? Errors: rod and lean, a tenth each, the lean
/// grown over the length; and the bow that the shop allows, which nobody measures on each blank.
Known axis_truth(const Blank& blank, const Order& order, const Shop& shop);

}  // namespace simulated
