#pragma once

#include "plan/order/order_plan.h"

namespace blankwright {

/// Witnesses for so many pieces, where each speaks for `pieces_a_witness` (> 0) of them.
constexpr int witnesses_for(int pieces, int pieces_a_witness) {
  return (pieces + pieces_a_witness - 1) / pieces_a_witness;
}

/// Pieces that lie beside a witness in one load of the order's oven; 0 where a bath has one witness, and where a load
/// holds no two blanks.
int pieces_a_witness(const OrderPlan& plan, const Order& order);

/// Witnesses for so many pieces: one a bath, or one a load of each bath.
int witnesses_wanted(int pieces, const OrderPlan& plan, const Order& order);

}  // namespace blankwright
