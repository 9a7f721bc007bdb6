#include "plan/order/witnesses.h"

#include <algorithm>

namespace blankwright {

int pieces_a_witness(const OrderPlan& plan, const Order& order) {
  const TreatmentFacts& treatment = *order.treatment;
  if (!treatment.witness.value || treatment.witness_for.value == WitnessFor::bath || !plan.process.cure) return 0;
  const OvenLoad load = oven_load(*plan.process.ovens.front().oven, *plan.blank.dry_section, *plan.blank.dry_length);
  return std::max(load.capacity() - 1, 0);
}

int witnesses_wanted(int pieces, const OrderPlan& plan, const Order& order) {
  if (!order.treatment || !order.treatment->witness.value || plan.process.bath_room < 2) return 0;
  const int a_load = pieces_a_witness(plan, order);
  const int room = plan.process.bath_room;
  if (a_load == 0) return witnesses_for(pieces, room - 1);
  const int in_full_bath = room - witnesses_for(room, a_load + 1);
  return pieces / in_full_bath * witnesses_for(in_full_bath, a_load) + witnesses_for(pieces % in_full_bath, a_load);
}

}  // namespace blankwright
