#include "commands/scrapped_by_change.h"

#include <algorithm>
#include <set>
#include <string>
#include <utility>

#include "commands/prints_in_force.h"

namespace blankwright {
namespace {

bool was_scrapped_by_change(Register& known, const BlankId& id, PrintsInForce& prints) {
  const std::vector<Entry> entries = known.entries_of(id);
  const auto all = holding(entries);
  const auto scrapped = std::ranges::find(all, EntryKind::scrapped, &Entry::kind);
  BlankState blank;
  for (auto entry = all.begin(); entry != scrapped; ++entry) blank = after(std::move(blank), **entry);
  if (scrapped == all.end() || !has_to_fit(blank, blank.promised)) return false;
  const AsPrinted* then = prints.print(blank.promised, (*scrapped)->at);
  if (then == nullptr) return false;
  const auto why = against_as_made(blank, entries, {&then->order, &*then->plan, &then->shop}, prints.all());
  return why && *why != Against::nothing;
}

}  // namespace

void leave_out_scrapped_by_change(Register& known, std::vector<KnownBlank>& blanks) {
  const std::set<std::string> again = known.printed_again();
  PrintsInForce prints{known};
  std::erase_if(blanks, [&](const KnownBlank& one) {
    return one.blank.stage == Stage::scrapped && again.contains(one.blank.promised) &&
           was_scrapped_by_change(known, *one.blank.id, prints);
  });
}

}  // namespace blankwright
