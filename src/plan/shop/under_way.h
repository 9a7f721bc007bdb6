#pragma once

#include <compare>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "plan/order/order_to_make.h"
#include "plan/shop/shop_plan.h"

namespace blankwright {

/// How many operations of a routing the blanks of a bath go through together: up to the last one of the cure.
std::size_t together(const std::vector<const OperationFacts*>& routing);
/// How many operations of an order's routing are done bath by bath.
std::size_t shared_operations(const OrderToMake& order, const std::vector<const OperationFacts*>& routing);

/// Gathers the blanks that were in a bath and are not cured: by real bath, and by load where they are in the oven;
/// what runs first, then what waits longest.
std::vector<BathUnderWay> baths_under_way(std::span<const OrderToMake> orders, const Shop& shop);

/// Blanks of an order that something goes on with apart from the others' work.
struct GroupApart {
  std::size_t order = 0;
  BlankGroup* group = nullptr;
};
/// What tells such goings-on from each other.
struct PlaceApart {
  std::string load;  ///< that dries, whosever blanks are in it; empty for what else there is, an order each
  std::size_t order = 0, step = 0;
  Instant begun;
  auto operator<=>(const PlaceApart&) const = default;
};
/// Gathers what dries, cools or sets while others are worked on. The orders outlive it.
std::map<PlaceApart, std::vector<GroupApart>> groups_apart(std::vector<OrderToMake>& orders, const Shop& shop);

/// Lets what runs end by the real clock: its length and that of what shares it count from its beginning.
void count_from_beginning(std::vector<Operation>& operations, Instant now);

/// Puts the real beginning of what runs into its times.
void note_running(std::span<const Operation> operations, OrderSchedule& planned);

/// Operations, those of one day with as many pieces as they were placed with.
std::vector<Operation> as_placed(std::vector<Operation> operations, const OrderSchedule& planned);

/// Says of runs of which it was not said yet of how many blanks they are: of those that their operation is done to, a
/// load of the drying oven of its part.
void count_blanks(std::span<const Operation> operations, OrderSchedule& planned);

/// Adds what was done to an order's blanks to its times, as entries tell it. An operation that nothing is left of and
/// nothing was entered of was over when the one behind it began.
void add_past(const OrderToMake& order, PlacedTimes& times, Instant now);

}  // namespace blankwright
