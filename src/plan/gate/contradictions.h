#pragma once

#include <span>
#include <string>
#include <vector>

#include "entries/blank_state.h"
#include "entries/process_state.h"
#include "plan/gate/could_become.h"
#include "plan/order/order_plan.h"

namespace blankwright {

struct ContradictionInput {
  const Entry& entry;
  const BlankState& before;  ///< the blank as it was known before
  const Order& order;        ///< that it is meant for
  const OrderPlan& plan;
  const Shop& shop;
};

/// What an entry of a blank says that hardly goes with what is known of the blank or planned for it: a digit, a unit
/// or a blank may have been mistaken. Each in one line, with what would go with it. The entry stands all the same.
/// Empty where nothing is odd. Limits: common practice, no source; wide enough for wood as it comes.
std::vector<std::string> contradictions(const ContradictionInput& in);

/// The same of a promise to another order.
std::vector<std::string> contradictions(const BlankOffered& promised, const OpenOrder& order);

/// The same of what is read at a bath or at a load of the oven, by the plan of a blank in it.
std::vector<std::string> contradictions(const Entry& entry, const OrderPlan& plan, const Shop& shop);

/// The same of a vacuum on blanks of a bath, whose order wants to have a witness with them.
std::vector<std::string> contradictions_of_vacuum(const Order& order, std::span<const BlankState> inside);

}  // namespace blankwright
