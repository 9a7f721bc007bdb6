#include "commands/changed_order.h"

#include <utility>

#include "commands/gates.h"
#include "commands/prints_in_force.h"

namespace blankwright {
std::vector<FitsNoMore> fit_no_more(Register& known, const Record& record, const OpenOrder& now) {
  std::vector<BlankState> looked_at = record.blanks;
  for (const BlankSummary& promised : record.promised) looked_at.push_back(*known.blank(*promised.id));
  std::vector<FitsNoMore> out;
  PrintsInForce prints{known};
  for (BlankState& blank : looked_at) {
    if (!has_to_fit(blank, now.order->id.value)) continue;
    const auto why = against_as_made(blank, known.entries_of(*blank.id), now, prints.all());
    if (why != Against::nothing) out.push_back({std::move(blank), why});
  }
  return out;
}

void say_fit_no_more(Register& known, const std::vector<FitsNoMore>& blanks, const OpenOrder& now, Diagnostics& out) {
  Gates gates{known, *now.shop};
  say_fit_no_more(
      blanks, *now.order, [&](const BlankState& blank) { return gates.could_become(blank, Gates::Tell::fitting); },
      out);
}

}  // namespace blankwright
