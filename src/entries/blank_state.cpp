#include "entries/blank_state.h"

#include <algorithm>

#include "entries/blank_rules.h"

namespace blankwright {
namespace {

constexpr std::array<std::string_view, 14> stages{"begun",   "in-bath",  "wet",      "in-oven",  "cured",
                                                  "squared", "bored",    "stud-set", "turned",   "inspected",
                                                  "sent",    "cut-open", "scrapped", "withdrawn"};

}  // namespace

std::string_view name_of(Stage stage) { return stages.at(static_cast<std::size_t>(stage)); }

std::optional<Stage> stage_named(std::string_view name) {
  const auto* const found = std::ranges::find(stages, name);
  if (found == stages.end()) return std::nullopt;
  return static_cast<Stage>(found - stages.begin());
}

std::string BlankState::place() const {
  if (stage == Stage::in_bath) return "bath " + bath;
  if (stage == Stage::in_oven) return "oven, load " + load;
  if (is_over()) return std::string{name_of(stage)};
  return is_drying ? "oven, to dry, load " + drying_load : "shop";
}

BlankState after(BlankState s, const Entry& entry) {
  s.last = std::max(s.last, entry.number);
  s.last_at = std::max(s.last_at, entry.at);
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
