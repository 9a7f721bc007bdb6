#include "plan/order/order_to_make.h"

#include <algorithm>

#include "plan/order/witnesses.h"

namespace blankwright {

OrderToMake order_to_make(const Order& order, const Shop& shop, const OrderPlan& plan) {
  OrderToMake to_make;
  const bool any_left = plan.pieces_done + plan.witnesses_done < plan.blanks();
  to_make.pieces = plan.start.pieces - (any_left ? plan.pieces_done : 0);
  to_make.witnesses = any_left ? plan.witnesses - plan.witnesses_done : 0;
  to_make.due = order.due;
  to_make.quantity_at = order.quantity.at;
  to_make.durations = planned_durations(plan.process, shop);
  to_make.durations.witnessed = to_make.witnesses > 0;
  if (!any_left) to_make.durations.treated = false;  // what is left to do comes after the cure
  if (any_left && plan.process.uptake && plan.process.bath_room > 0) {
    to_make.resin = plan.process.resin;
    to_make.blank = bath_blank(plan.process, plan.blank);
    to_make.pieces_a_witness = pieces_a_witness(plan, order);
    if (order.treatment->dye) {
      to_make.dye = order.treatment->dye->value;
      const auto& dyes = plan.process.resin->dyes;
      const auto found = std::ranges::find(dyes, *to_make.dye, [](const auto& dye) { return dye.value; });
      to_make.darkness = static_cast<int>(found - dyes.begin()) + 1;
    }
  }
  to_make.sawn_section = plan.blank.sawn_section.value_or(plan.blank.squared_section);
  to_make.sawn_length = plan.blank.sawn_length.value_or(plan.blank.squared_length);
  if (plan.process.cure) {
    to_make.oven = plan.process.cure->oven;
    to_make.cure = plan.process.cure;
  } else if (!shop.ovens.empty()) {
    to_make.oven = &shop.ovens.front();
  }
  return to_make;
}

}  // namespace blankwright
