#pragma once

#include "diagnose/diagnostics.h"
#include "plan/wood/cutting.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// Does each defect begin before it ends and lie on its board, and has each board a name of its own? What does not is
/// an error, and nothing can be laid out.
bool boards_make_sense(const Order& order, Diagnostics& out);

/// Warns when the order's boards do not give what is wanted: how many are missing, how much board they would take,
/// and which boards are too thin, narrow or short for any. An order without boards is not judged: they are still to
/// be bought.
void judge_cutting(const CuttingPlan& plan, const Order& order, const Shop& shop, Diagnostics& out);

}  // namespace blankwright
