#include "plan/order/cautions.h"

namespace blankwright {
namespace {

bool is_sawn_or_squared(const Order& order) {
  return !order.blank || order.blank->state.value != SectionState::squared;
}

bool uses_glue(const Order& order) {
  return order.bore.fit.value == BoreFit::glued || (order.ferrule && order.ferrule->fit.value == FerruleFit::glued);
}

bool has_decayed(const Order& order) {
  const WoodCondition condition = order.wood.condition.value;
  return condition == WoodCondition::spalted || condition == WoodCondition::punky;
}

/// A thread cut into wood has no figure that the shop could have measured.
bool is_untested(const Order& order, const Shop& shop) {
  return order.bore.fit.value == BoreFit::tapped || !shop.glue.shear_measured.value;
}

bool fits_plan(Caution caution, const Order& order, const Shop& shop, const OrderPlan& plan) {
  const Process& process = plan.process;
  const bool dries = process.drying.least > Duration{};
  const bool impregnates = process.resin != nullptr;
  switch (caution) {
    case Caution::sawing:
      return is_sawn_or_squared(order);
    case Caution::drying_oven:
      return dries;
    case Caution::dry_before_resin:
      return dries && impregnates;
    case Caution::resin:
    case Caution::uncured:
    case Caution::food:
      return impregnates;
    case Caution::activator:
      return impregnates && process.resin->activator.value > Share{};
    case Caution::vacuum_vessel:
    case Caution::vacuum_pump:
      return process.vacuum.has_value();
    case Caution::curing_oven:
    case Caution::exotherm:
      return process.cure.has_value();
    case Caution::glue:
      return uses_glue(order);
    case Caution::drilling:
    case Caution::check_blank:
    case Caution::speed:
    case Caution::threaded_mount:
    case Caution::dust:
      return true;
    case Caution::decayed_wood:
      return has_decayed(order);
    case Caution::finish:
      return order.finish.has_value();
    case Caution::untested_stud:
      return is_untested(order, shop);
  }
  return true;
}

}  // namespace

CautionStep step_of(Caution caution) {
  switch (caution) {
    case Caution::sawing:
      return CautionStep::sawing;
    case Caution::drying_oven:
      return CautionStep::drying;
    case Caution::dry_before_resin:
    case Caution::resin:
    case Caution::activator:
    case Caution::vacuum_vessel:
    case Caution::vacuum_pump:
      return CautionStep::bath;
    case Caution::curing_oven:
    case Caution::exotherm:
      return CautionStep::cure;
    case Caution::drilling:
    case Caution::glue:
      return CautionStep::boring;
    case Caution::check_blank:
    case Caution::speed:
    case Caution::threaded_mount:
    case Caution::dust:
    case Caution::decayed_wood:
    case Caution::uncured:
    case Caution::finish:
      return CautionStep::turning;
    case Caution::food:
    case Caution::untested_stud:
      return CautionStep::use;
  }
  return CautionStep::use;
}

std::vector<Caution> cautions_for(const Order& order, const Shop& shop, const OrderPlan& plan) {
  std::vector<Caution> chosen;
  for (std::size_t n = 0; n < caution_keys.size(); ++n) {
    const auto caution = static_cast<Caution>(n);
    if (fits_plan(caution, order, shop, plan)) chosen.push_back(caution);
  }
  return chosen;
}

}  // namespace blankwright
