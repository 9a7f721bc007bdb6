#include "plan/shop/oven_together.h"

#include <algorithm>

namespace blankwright {

const OvenFacts* oven_together(std::span<const OrderToMake* const> orders) {
  Length section{}, length{};
  for (const OrderToMake* order : orders) {
    section = std::max({section, order->sawn_section, order->blank.section});
    length = std::max({length, order->sawn_length, order->blank.length});
  }
  for (const OrderToMake* order : orders) {
    if (order->oven != nullptr && oven_load(*order->oven, section, length).capacity() > 0) return order->oven;
  }
  return orders.front()->oven;
}

}  // namespace blankwright
