#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "shop.h"

namespace calendar_rules {

enum class Witness { none, for_bath, for_load };

struct Order {
  std::string id;
  int quantity = 1;
  std::optional<Date> due{};
  std::array<int, 3> diameter_mm{};  ///< at the seat, at the belly, at the tail
  int length_mm = 0;
  std::string resin{}, dye{};  ///< not treated; undyed
  Witness witness = Witness::none;
  bool treated() const { return !resin.empty(); }
};

std::vector<Order> orders_by_chance(Chance& chance, const Shop& shop);

std::string order_text(const Order& order);

}  // namespace calendar_rules
