#include "plan/shop/against_plan.h"

#include <algorithm>
#include <map>

#include "diagnose/problem.h"
#include "diagnose/says_shop.h"
#include "measure/elapsed.h"
#include "measure/quantity_text.h"

namespace blankwright {
namespace {

/// Blanks of one order that wait for the same operation.
struct Waiting {
  int blanks = 0;
  std::optional<Instant> since;  ///< the first of them
};

std::optional<Instant> planned_start(const PlannedOperation& operation) {
  const auto run = std::ranges::find(operation.runs, RunIs::planned, &PlannedRun::is);
  return run == operation.runs.end() ? std::nullopt : std::optional{run->at.from};
}

}  // namespace

void tell_broken_waits(const OrderToMake& order, const PlacedTimes& times, const Zone& zone, Diagnostics& said) {
  std::map<std::size_t, Waiting> waiting;  // by operation
  for (const auto* groups : {&order.waiting_pieces, &order.waiting_witnesses, &order.under_way}) {
    for (const BlankGroup& group : *groups) {
      if (!group.waits_since || group.at.next >= times.routing.size()) continue;
      Waiting& all = waiting[group.at.next];
      all.blanks += group.pieces + group.witnesses;
      all.since = std::min(all.since.value_or(*group.waits_since), *group.waits_since);
    }
  }
  for (const auto& [step, all] : waiting) {
    const OperationFacts& facts = *times.routing.at(step);
    const auto start = planned_start(times.planned.operations.at(step));
    if (!facts.longest_wait || !start || between(*all.since, *start) <= facts.longest_wait->value) continue;
    said.warning(Problem::wait_broken, facts.longest_wait->at, says::wait_is_broken, order.id, all.blanks,
                 Moment{zone, *all.since}, facts.name.value, Moment{zone, *start}, printed(facts.longest_wait->value))
        .hint(says::look_at_them_first);
  }
}

void tell_later_entries(const OrderToMake& order, Instant now, const Zone& zone, Diagnostics& said) {
  Instant last = now;
  for (const DoneBetween& past : order.past) {
    if (past.at) last = std::max(last, past.at->to);
  }
  if (last <= now) return;
  said.warning(Problem::entries_later, {}, says::entries_are_later, order.id, Moment{zone, last}, Moment{zone, now})
      .hint(says::plan_from_then);
}

}  // namespace blankwright
