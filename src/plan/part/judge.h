#pragma once

#include <optional>

#include "plan/part/axis_error.h"
#include "plan/part/blank_size.h"
#include "plan/part/bore.h"
#include "plan/part/centring.h"
#include "plan/part/rounded_blank.h"
#include "plan/part/stud.h"
#include "read/order.h"
#include "read/shop.h"

// Judgements: what was worked out against the limits of order and shop. They compute nothing that is printed.

namespace blankwright {

/// The drill for the bore: the order's, or chosen among the shop's. None that fits is an error.
std::optional<Drill> judge_drill(const Order& order, const Shop& shop, Diagnostics& out);

void judge_stud(const Stud& stud, const Order& order, const Shop& shop, Diagnostics& out);

struct BoreToJudge {
  const FinishedForm& form;
  const Stud& stud;
  const BoreDepth& depth;
  const BoreWalls& walls;
};

/// The bore's end, web and walls. False when the bore is deeper than the handle is long.
bool judge_bore(const BoreToJudge& bore, const Order& order, const Shop& shop, Diagnostics& out);

struct BlankToJudge {
  const FinishedForm& form;
  const AxisError& axis;
  const BlankSize& size;
  const Centring& centring;
  const std::optional<RoundedBlank>& rounded;  ///< where the shop bores on the lathe
};

/// A blank that was given: is it long enough, and does it leave room for the axis that the shop holds?
void judge_blank(const BlankToJudge& blank, const Order& order, const Shop& shop, Diagnostics& out);

}  // namespace blankwright
