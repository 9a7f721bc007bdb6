#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "entries/blank_state.h"
#include "plan/order/order_plan.h"

namespace blankwright {

/// The orders that a blank was meant for when what cannot be undone was done to it, the last time of each: a promise
/// to another order changes nothing of that.
struct MadeFor {
  struct Step {
    std::string order;
    Instant at;
  };
  std::optional<Step> bathed, bored, stud_set;
};

/// By a blank's entries, up to the last one that its state knows.
MadeFor made_for(const std::vector<Entry>& entries, const BlankState& state);

/// The order by whose plan a blank's bath and cure are judged: the one that it was bathed for, unless that has no
/// resin. `plan_of`: an order's plan, null where it cannot be planned any more.
std::string bath_order(const BlankState& blank, const MadeFor& made,
                       const std::function<const OrderPlan*(const std::string& order)>& plan_of);

/// When the blank got its bore, or else when something was first done for it, or else any time.
Instant made_at(const std::vector<Entry>& entries, const BlankState& blank);

}  // namespace blankwright
