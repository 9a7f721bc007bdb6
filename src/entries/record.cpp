#include "entries/record.h"

#include <algorithm>

namespace blankwright {

bool is_to_be_bathed(const Record& record, const BlankState& blank) {
  if (blank.stage == Stage::begun) return true;
  if (blank.stage == Stage::wet) return record.soak_again.contains(*blank.id);
  if (blank.stage != Stage::in_bath) return false;
  const auto bath = record.baths.find(blank.bath);
  return bath != record.baths.end() && !bath->second.vacuum_on && !bath->second.released;
}

std::string lies_in(const Record& record, const BlankState& blank) {
  return blank.stage == Stage::in_bath && is_to_be_bathed(record, blank) ? blank.bath : std::string{};
}

std::vector<BlankId> to_be_bathed(const Record& record, std::span<const BlankId> of) {
  std::map<BlankId, const BlankState*> seen;
  for (const BlankState& blank : record.blanks) seen.emplace(*blank.id, &blank);
  std::vector<std::pair<std::string, BlankId>> waiting;  // by the bath that they lie in
  for (const BlankId& id : of) {
    const auto found = seen.find(id);
    if (found == seen.end()) {
      waiting.emplace_back(std::string{}, id);
    } else if (is_to_be_bathed(record, *found->second)) {
      waiting.emplace_back(lies_in(record, *found->second), id);
    }
  }
  std::ranges::stable_sort(waiting, {}, [](const auto& one) { return std::pair{one.first.empty(), one.first}; });
  std::vector<BlankId> out;
  for (const auto& [bath, id] : waiting) out.push_back(id);
  return out;
}

OrderSoFar order_so_far(const Record& record) {
  OrderSoFar out;
  const auto is_replaced = [&](const std::optional<BlankId>& blank) {
    return std::ranges::any_of(record.replaced, [&](const BlankId& id) { return blank == id; });
  };
  for (const BlankState& blank : record.blanks) {
    if (blank.witness) continue;
    const Fate fate = fate_of(blank);
    if (is_replaced(blank.id) || blank.promised != blank.order || is_given_up(fate)) {
      ++out.lost;
    } else if (fate == Fate::good) {
      ++out.good;
    }
  }
  for (const BlankSummary& blank : record.promised) {
    out.from_stock += is_given_up(fate_of(blank)) || is_replaced(blank.id) ? 0 : 1;
  }
  return out;
}

}  // namespace blankwright
