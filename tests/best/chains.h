#pragma once

#include <map>
#include <string>
#include <vector>

#include "../calendar/order.h"
#include "../calendar/plan.h"
#include "task.h"

namespace best_plans {

/// Orders that share baths, with their plans.
struct Sharing {
  std::vector<std::size_t> orders;  ///< by their numbers
  std::map<std::string, calendar_rules::Plan> plans;
};

/// People, then vessels and ovens, by name; and resin with its dye, of which what is left over goes from bath to
/// bath.
struct Names {
  std::vector<std::string> people, places;
  std::size_t person(const std::string& name);
  std::size_t place(const std::string& name);
};

enum class Behind { in_one_go, by_bath };

/// The chains of all orders: each bath up to the cure, and what each order does by itself, in one go or bath by bath.
std::vector<Chain> chains_of(const calendar_rules::Shop& shop, const std::vector<calendar_rules::Order>& orders,
                             const std::vector<Sharing>& all, Behind behind, Names& names);

}  // namespace best_plans
