#include "plan/routing/judge_routing.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string>
#include <vector>

#include "diagnose/problem.h"

namespace blankwright {

void judge_routing(const PlannedDurations& planned, const Order& order, const Shop& shop, Diagnostics& out) {
  if (!planned.treated) return;
  std::vector<std::string> missing;
  const auto ask_for = [&](PlannedWork work) {
    const auto is_it = [&](const OperationFacts& facts) { return facts.planned && facts.planned->value == work; };
    if (std::ranges::none_of(shop.routing, is_it)) missing.push_back(fmt::format("\"{}\"", name_of(work)));
  };
  const bool has_oven = !shop.ovens.empty();  // that none is there is told elsewhere
  if (has_oven && planned.drying > Duration{}) {
    ask_for(PlannedWork::drying);
    ask_for(PlannedWork::cooling);
  }
  ask_for(PlannedWork::vacuum);
  ask_for(PlannedWork::soak);
  if (has_oven) ask_for(PlannedWork::cure);
  if (missing.empty()) return;
  const Place& treated = order.treatment->resin.at;
  out.warning(
         Problem::routing_incomplete, shop.routing.empty() ? treated : shop.routing.front().place,
         fmt::format("the routing has no operation with planned = {}, and the calendar of treated wood leaves out "
                     "what it has none for",
                     fmt::join(missing, ", ")))
      .label(treated, "treated")
      .hint(fmt::format("a [[routing]] table each in the shop file, where it comes in the work, with name, who and "
                        "planned = {}",
                        fmt::join(missing, " or ")));
}

}  // namespace blankwright
