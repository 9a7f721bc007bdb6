#pragma once

#include <optional>
#include <span>
#include <vector>

#include <tl/expected.hpp>

#include "plan/shop/batch.h"
#include "plan/shop/shop_calendar.h"

namespace blankwright {

/// An order that has a share of a bath, and the routing that it goes through.
struct OrderInShare {
  const OrderToMake& order;
  const Shop& shop;
  const std::vector<const OperationFacts*>& routing;
};

/// How many of a share's blanks go through an operation, or are in the load that it cures; null: in none.
int blanks_at(const BlankShare& share, const OrderInShare& own, const OperationFacts* facts, const PlannedLoad* load);
/// How many blanks of a share of what is under way go through operation `i` of its bath: those with which it runs, or
/// their part of those for which it is to begin.
int blanks_of_run(const BathUnderWay& bath, const BathUnderWay::Share& share, std::span<const OrderToMake> orders,
                  const Shop& shop, std::span<const OperationFacts* const> routing, std::span<const Operation> ops,
                  std::size_t i);

/// What of a share goes on behind its bath, whose operations these are; none where nothing does. `loads`: what each
/// of them cures.
std::optional<OutOfBath> out_of(const BlankShare& share, const OrderInShare& own,
                                std::span<const OperationFacts* const> routing, std::span<const Operation> ops,
                                std::span<const PlannedLoad* const> loads);
std::optional<OutOfBath> out_of(const BathUnderWay& bath, const BathUnderWay::Share& share,
                                std::span<const OrderToMake> orders, const OrderInShare& own,
                                std::span<const OperationFacts* const> routing, std::span<const Operation> ops);

/// What such blanks do by themselves and may wait for only so long. Steps count from the end of what is done with
/// others, also below.
std::vector<Operation> tied_to_bath(const OutOfBath& blanks, const OrderInShare& own);

/// And what they do then.
std::vector<Operation> behind_bath(const OutOfBath& blanks, const OrderInShare& own);

/// Operations that some blanks of an order go through by themselves, and when.
struct PlacedRest {
  std::vector<Operation> ops;
  OrderSchedule planned;
};

/// Places what an order's blanks do by themselves behind their baths, without what is tied to those: the blanks of
/// each bath once they are there, or all in one go once the last are, whichever ends earlier; in one go where both
/// end at once, since that is set up once.
tl::expected<std::vector<PlacedRest>, Obstacle> place_out_of_baths(ShopCalendar& calendar, const OrderInShare& own,
                                                                   std::span<const OutOfBath> baths);

}  // namespace blankwright
