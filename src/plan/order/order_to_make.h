#pragma once

#include <optional>
#include <string>

#include "plan/order/order_plan.h"
#include "plan/process/bath.h"
#include "plan/process/cure.h"
#include "plan/routing/operations.h"
#include "read/order.h"
#include "read/shop.h"

namespace blankwright {

/// What has to be known of an order to plan it together with others: little, since there may be many.
struct OrderToMake {
  int pieces = 0;            ///< to start, without witnesses
  int witnesses = 0;         ///< one for each bath, or load, that the order would need by itself
  int pieces_a_witness = 0;  ///< that a load holds beside its witness; 0: a bath has one witness, whatever it holds
  std::optional<Given<Date>> due;
  Place quantity_at;
  PlannedDurations durations;
  const ResinFacts* resin = nullptr;  ///< null: no bath is planned for it
  std::optional<std::string> dye;
  int darkness = 0;                  ///< of the dye: 0 for none, then as the shop lists them
  BathBlanks blank;                  ///< of one; its count is not used
  Length sawn_section, sawn_length;  ///< as it goes into the oven to dry
  const OvenFacts* oven = nullptr;   ///< for the cure, and for drying; null where the shop has none that will do
  std::optional<Cure> cure;          ///< of its blanks
};

/// The same of an order that was planned. The shop outlives it.
OrderToMake order_to_make(const Order& order, const Shop& shop, const OrderPlan& plan);

}  // namespace blankwright
