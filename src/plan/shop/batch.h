#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "plan/order/order_to_make.h"
#include "plan/routing/operations.h"
#include "plan/shop/shop_plan.h"
#include "plan/shop/under_way.h"

namespace blankwright {

/// Blanks that go through operations together: those of a bath, or of one order.
struct Batch {
  PlannedDurations durations;  ///< the longest of its orders
  OperationNeeds needs;
  std::vector<const OperationFacts*> routing{};  ///< of a bath: all that any of its orders goes through
};

/// The blanks of a bath, of all its orders.
Batch batch_of(const ShopPlan& plan, std::size_t number, std::span<const OrderToMake> orders, const Shop& shop);
/// Blanks that were in a bath already, up to the cure.
Batch batch_of(const BathUnderWay& bath, std::span<const OrderToMake> orders, const Shop& shop);
/// Blanks that something goes on with at `step` of their routings, apart from the others' work. Its steps count from
/// there on. At least one group.
Batch batch_of(std::span<const GroupApart> groups, std::size_t step, std::span<const OrderToMake> orders,
               const Shop& shop);
/// All blanks of an order as if it were alone.
Batch alone(const OrderToMake& order, const Shop& shop);
/// Do an order's witnesses go through what comes after the first `shared` operations?
bool witnesses_go_on(const OrderToMake& order, std::size_t shared, const Shop& shop);
/// What of an order goes on by itself after the cure, at `shared` in its routing: the blanks that are there, or those
/// that have to come there. Its steps count from `shared` on.
Batch cured_of(const OrderToMake& order, std::size_t shared, const Shop& shop);
Batch not_cured_of(const OrderToMake& order, std::size_t shared, const Shop& shop);
/// Blanks of an order that come out of one of its baths.
struct OutOfBath {
  std::size_t after = 0;          ///< the last of the bath's operations that they go through
  int pieces = 0, witnesses = 0;  ///< that go on
  Instant ready{};                ///< when they do
};
Batch batch_of(const OutOfBath& blanks, const OrderToMake& order, const Shop& shop);

/// Where an operation stands in an order's own routing; none where it does not go through it.
std::optional<std::size_t> step_of(const OperationFacts* facts, std::span<const OperationFacts* const> own);

/// How many blanks of a share a step of the routing is still open for.
int still_open(const BlankShare& share, const OrderToMake& order, std::size_t step);

std::vector<Operation> operations(std::span<const OperationFacts* const> routing, const Batch& batch);

/// What an order still goes through: up to the cure as those of its last bath, if it has one, and then as its own.
std::vector<Operation> operations_of(const OrderToMake& order, const PlacedTimes& times, const ShopPlan& plan,
                                     std::span<const OrderToMake> orders, const Shop& shop);

/// An operation as it is done to all blanks of an order, wherever they stand.
Operation whole_operation(const OperationFacts& facts, const OrderToMake& order, const Shop& shop);

}  // namespace blankwright
