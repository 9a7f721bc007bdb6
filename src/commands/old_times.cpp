#include "commands/old_times.h"

#include <algorithm>

#include "measure/elapsed.h"
#include "sheet/paper/said_times.h"

namespace blankwright {
namespace {

bool is_other_day(const Zone& zone, Instant a, Instant b) { return date_of(zone, a) != date_of(zone, b); }

bool shows_in_routing(const MovedOperation& moved, const OperationFacts& facts, const Zone& zone) {
  const Interval before = *moved.before, now = *moved.now;
  const bool has_length = facts.hands_on.value != HandsOnWhen::throughout;
  const auto length = [](const Interval& at) { return rounded_length(between(at.from, at.to)); };
  return is_other_day(zone, before.from, now.from) || is_other_day(zone, before.to, now.to) ||
         (has_length && length(now) != length(before));
}

}  // namespace

std::set<SheetKind> sheets_with_old_times(const std::vector<MovedOperation>& moved, const PlacedTimes& times,
                                          const Zone& zone) {
  std::set<SheetKind> sheets;
  for (const MovedOperation& one : moved) {
    const auto row = std::ranges::find(times.routing, one.name, [](const auto* facts) { return facts->name.value; });
    if (!one.before || !one.now || shows_in_routing(one, **row, zone)) sheets.insert(SheetKind::routing);
    if (!one.before || !one.now || !is_other_day(zone, one.before->from, one.now->from)) continue;
    if ((*row)->is(PlannedWork::vacuum)) sheets.insert({SheetKind::bath, SheetKind::bottle_labels});
    if ((*row)->is(PlannedWork::cure)) sheets.insert(SheetKind::oven);
  }
  return sheets;
}

}  // namespace blankwright
