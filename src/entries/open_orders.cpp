#include "entries/open_orders.h"

#include "entries/fate.h"

namespace blankwright {

std::set<std::string> open_orders(std::span<const KnownBlank> blanks, const std::map<std::string, int>& wanted) {
  struct Seen {
    int sent = 0, in_shop = 0, runs = 0;
  };
  std::map<std::string, Seen> orders;
  for (const KnownBlank& known : blanks) {
    const BlankSummary& blank = known.blank;
    if (blank.stage == Stage::withdrawn) continue;
    if (!blank.order.empty()) orders.try_emplace(blank.order);
    Seen& meant_for = orders[blank.promised];
    if (blank.stage == Stage::in_bath || blank.stage == Stage::in_oven) ++meant_for.runs;
    if (blank.stage == Stage::sent) ++meant_for.sent;
    if (!is_given_up(fate_of(blank)) && blank.stage != Stage::sent) ++meant_for.in_shop;
  }
  std::set<std::string> open;
  for (const auto& [id, seen] : orders) {
    const auto quantity = wanted.find(id);
    const bool is_open = quantity == wanted.end() ? seen.in_shop > 0 : seen.sent < quantity->second;
    if ((is_open || seen.runs > 0) && !id.empty()) open.insert(id);
  }
  return open;
}

}  // namespace blankwright
