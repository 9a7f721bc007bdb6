#include "plan/order/order_material.h"

#include <fmt/format.h>

#include <algorithm>

namespace blankwright {
namespace {

/// Pieces that still get a stud: those to be started, and what is under way for the order without one.
int studs_to_set(const OrderPlan& plan, const Order& order, const Record& record) {
  const auto is_replaced = [&](const BlankId& id) {
    return std::ranges::find(record.replaced, id) != record.replaced.end();
  };
  int studs = plan.start.pieces;
  for (const BlankState& blank : record.blanks) {
    if (blank.witness) continue;
    const bool is_here = blank.promised == order.id.value && !is_given_up(fate_of(blank)) && !is_replaced(*blank.id);
    if (!is_here || blank.glued || blank.stage >= Stage::stud_set) --studs;
  }
  for (const BlankSummary& blank : record.promised) {
    if (fate_of(blank) == Fate::in_work && !is_replaced(*blank.id)) ++studs;
  }
  return studs;
}

}  // namespace

OrderMaterial order_material(const Order& order, const OrderPlan& plan, const Record& record) {
  OrderMaterial material;
  material.wood = plan.species;
  if (order.wood.condition.value != WoodCondition::sound)
    material.wood += fmt::format(", {}", name_of(order.wood.condition.value));
  material.section = plan.blank.sawn_section.value_or(plan.blank.squared_section);
  material.length = plan.blank.sawn_length.value_or(plan.blank.squared_length);
  if (!order.blank) {
    const auto sawn = std::ranges::count_if(record.blanks, &BlankState::is_begun);
    material.to_saw = std::max(0, plan.blanks() - static_cast<int>(sawn));
    if (plan.cutting) material.on_boards = std::max(0, material.to_saw - plan.cutting->missing());
  }
  material.studs = {order.stud.thread.value, plan.stud.cut_length, std::max(0, studs_to_set(plan, order, record))};
  for (const auto& [name, bath] : record.baths) {
    if (bath.vacuum_on) continue;
    for (const auto& [lot, volume] : bath.poured) material.poured[name] = material.poured[name] + volume;
  }
  return material;
}

}  // namespace blankwright
