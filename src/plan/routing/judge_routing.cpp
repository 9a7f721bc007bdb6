#include "plan/routing/judge_routing.h"

#include <algorithm>
#include <string>
#include <vector>

#include "diagnose/problem.h"
#include "diagnose/says_shop.h"

namespace blankwright {

void judge_routing(const PlannedDurations& planned, const Order& order, const Shop& shop, Diagnostics& out) {
  if (!planned.treated) return;
  std::vector<std::string> missing;
  const auto ask_for = [&](PlannedWork work) {
    const auto is_it = [&](const OperationFacts& facts) { return facts.is(work); };
    if (std::ranges::none_of(shop.routing, is_it)) missing.emplace_back(name_of(work));
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
  out.warning(Problem::routing_incomplete, shop.routing.empty() ? treated : shop.routing.front().place,
              says::routing_lacks, listed(missing, says::quoted, says::one_and_next))
      .label(treated, says::treated)
      .hint(says::add_to_routing, listed(missing, says::quoted, says::either));
}

}  // namespace blankwright
