#pragma once

#include <optional>
#include <span>

#include "plan/order_plan.h"

// Judgements: what was worked out against the limits of order and shop. They compute nothing that is printed.

namespace blankwright {

struct WoodFigures {
  std::string name;
  Share tangential;
};

/// The species that the order means; ambiguous, unknown or without a known shrinkage is an error.
std::optional<WoodFigures> judge_species(const WoodFacts& wood, Diagnostics& out);

/// The drill for the bore: the order's, or chosen among the shop's. None that fits is an error.
std::optional<Drill> judge_drill(const Order& order, const Shop& shop, Diagnostics& out);

void judge_stud(const Stud& stud, const Order& order, const Shop& shop, Diagnostics& out);

/// The bore's end, web and walls. False when the bore is deeper than the handle is long.
bool judge_bore(const OrderPlan& plan, const Order& order, const Shop& shop, Diagnostics& out);

void judge_blank(const OrderPlan& plan, const Order& order, const Shop& shop, Diagnostics& out);

void judge_start(const StartCountInput& in, const std::optional<Worked<StartCount>>& count, const Order& order,
                 const Shop& shop, Diagnostics& out);

}  // namespace blankwright
