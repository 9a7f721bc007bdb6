#include "commands/made_for.h"

namespace blankwright {

MadeFor made_for(const std::vector<Entry>& entries, const BlankState& state) {
  MadeFor made;
  std::string order = state.order;
  for (const Entry* entry : holding(entries)) {
    if (entry->number > state.last) continue;
    const MadeFor::Step step{order, entry->at};
    switch (entry->kind) {
      case EntryKind::promised:
        order = entry->text(Field::order);
        break;
      case EntryKind::into_bath:
        made.bathed = step;
        break;
      case EntryKind::bored:
        made.bored = step;
        break;
      case EntryKind::stud_measured:
        made.stud_set = step;
        break;
      default:
        break;
    }
  }
  return made;
}

}  // namespace blankwright
