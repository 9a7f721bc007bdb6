#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "plan/order/order_to_make.h"
#include "plan/shop/shop_plan.h"

namespace blankwright {

bool has_witness(const std::vector<BlankShare>& shares);

/// Has each load a witness in which an order lies that is to have one in every load?
bool all_witnessed(const std::vector<PlannedLoad>& loads, std::span<const OrderToMake> orders);

/// As few loads as can be, of nearly one size. Without an oven there are none. Which of its blanks takes longest is
/// not said yet.
std::vector<PlannedLoad> loads_of(const std::vector<BlankShare>& shares, const std::vector<BathBlanks>& blanks,
                                  std::size_t bath, std::span<const OrderToMake> orders);

/// The loads of a bath's blanks: as few as can be, of nearly one size, in as much room as the largest of them needs.
/// Without an oven there are none.
std::vector<PlannedLoad> form_loads(const PlannedBath& bath, std::size_t number, std::span<const OrderToMake> orders);

/// The same load in the oven of that name, if it is another one that would do for it.
void move_to(const std::string& oven, PlannedLoad& load, std::span<const OrderToMake> orders);

}  // namespace blankwright
