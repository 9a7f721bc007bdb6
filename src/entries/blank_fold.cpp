#include <algorithm>
#include <utility>

#include "entries/blank_rules.h"
#include "entries/blank_state.h"

namespace blankwright {

BlankState after(BlankState s, const Entry& entry) {
  s.last = std::max(s.last, entry.number);
  s.last_at = std::max(s.last_at, entry.at);
  s.told[entry.kind].push_back(entry.at);
  if (entry.kind != EntryKind::issued) s.last_done = std::max(s.last_done, entry.at);
  if (const BlankRule* rule = rule_of(entry.kind)) {
    s.has_wood = s.has_wood || rule->of == Of::wood;
    rule->take(s, entry);
  }
  if (s.stage != Stage::begun) s.is_drying = false;
  return s;
}

BlankState state_of(const std::vector<Entry>& entries) {
  BlankState state;
  for (const Entry* entry : holding(entries)) state = after(std::move(state), *entry);
  if (!entries.empty()) {  // a correction is the last word too
    state.last = entries.back().number;
  }
  return state;
}

}  // namespace blankwright
