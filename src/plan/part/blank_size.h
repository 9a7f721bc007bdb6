#pragma once

#include <optional>

#include "plan/part/axis_error.h"
#include "plan/part/finished_form.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// What the shop leaves on and takes off, for this order: a spigot stands out of the seat, so the end that is drilled
/// lies before the seat by its height too.
AllowanceFacts allowances_for(const Order& order, const Shop& shop);

/// Sides of the square section and lengths in the states of a blank. A state that lies behind a blank given later is
/// not known.
struct BlankSize {
  std::optional<Length> sawn_section, dry_section;
  Length squared_section;
  std::optional<Length> sawn_length, dry_length;
  Length squared_length;
  Share shrinkage;  ///< of the section, from sawn to oven-dry
};

struct BlankSizeInput {
  const FinishedForm& form;
  AxisError axis;
  const AllowanceFacts& allowances;
  Share tangential;                  ///< shrinkage green to oven-dry, S0
  Given<Share> moisture;             ///< when sawn
  bool end_grain_all_round = false;  ///< burl: shrinks lengthwise as it does across
};

/// The blank to saw so that the form lies inside it whatever way the bore is off.
///
///   squared >= max over z of ( D(z) + 2 finish + 2 bow + 2 (e + z t) ) + section tolerance
///   dry      = squared + squaring
///   sawn     = dry / (1 − S) + planing, rounded up to the saw's increment and carried back down
///   S        = 1 − (1 − S0) / (1 − S0 (30 − M)/30), M capped at 30 %
///
/// and along the grain: handle + seat facing + tail waste, + end squaring, with the longitudinal shrinkage; in burl
/// with S, since its grain has no direction (common practice, no source). Source: geometry; Wood Handbook eq. 4-7.
Worked<BlankSize> blank_size(const BlankSizeInput& in);

/// The states of a blank that is there already, carried on from the state that it was measured in.
Worked<BlankSize> given_blank_size(const BlankSizeInput& in, const BlankFacts& blank);

}  // namespace blankwright
