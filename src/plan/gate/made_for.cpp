#include "plan/gate/made_for.h"

namespace blankwright {

MadeFor made_for(const std::vector<Entry>& entries, const BlankState& state) {
  MadeFor made;
  std::string order = state.order;
  for (const Entry* entry : holding(entries)) {
    if (entry->number > state.last) continue;
    const MadeFor::Step step{order, entry->at};
    if (entry->kind == EntryKind::promised) order = entry->text(Field::order);
    if (entry->kind == EntryKind::into_bath) made.bathed = step;
    if (entry->kind == EntryKind::bored) made.bored = step;
    if (entry->kind == EntryKind::stud_measured) made.stud_set = step;
  }
  return made;
}

std::string bath_order(const BlankState& blank, const MadeFor& made,
                       const std::function<const OrderPlan*(const std::string& order)>& plan_of) {
  if (blank.bath.empty() || !made.bathed || made.bathed->order == blank.promised) return blank.promised;
  const OrderPlan* then = plan_of(made.bathed->order);
  return then == nullptr || then->process.resin != nullptr ? made.bathed->order : blank.promised;
}

Instant made_at(const std::vector<Entry>& entries, const BlankState& blank) {
  std::optional<Instant> at;
  for (const Entry* entry : holding(entries)) {
    if (entry->kind == EntryKind::issued || entry->kind == EntryKind::promised) continue;
    if (!at || (entry->kind == EntryKind::bored && blank.stage >= Stage::bored)) at = entry->at;
  }
  return at.value_or(Instant::max());
}

}  // namespace blankwright
