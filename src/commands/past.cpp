#include "commands/past.h"

#include <memory>

#include "commands/scrapped_by_change.h"
#include "plan/order/bond_seen.h"
#include "plan/order/plan_order.h"

namespace blankwright {
namespace {

/// What one pulled stud tells; none where its order cannot be planned any more.
std::optional<BondSeen> bond_of(Register& known, const BlankSummary& blank, const Shop& shop) {
  const auto job = known.stored_job(blank.order);
  if (!job || !blank.pulled) return std::nullopt;
  Diagnostics ignored;
  const auto order = read_order(std::make_shared<const SourceText>(SourceText{blank.order, *job}), ignored);
  if (!order) return std::nullopt;
  const auto plan = plan_order(*order, shop, Record{}, ignored);
  if (!plan) return std::nullopt;
  return bond_seen(*blank.pulled, *order, *plan);
}

}  // namespace

ShopPast past_of(Register& known, const Shop& shop) {
  auto blanks = known.known_blanks();
  ShopPast past;
  past.axis = axis_spread(blanks);
  past.uptake = uptake_seen(blanks);
  for (const KnownBlank& blank : blanks) {
    const auto bond = blank.blank.pulled ? bond_of(known, blank.blank, shop) : std::nullopt;
    if (bond) past.bond = with_one_more(past.bond, *bond);
  }
  leave_out_scrapped_by_change(known, blanks);
  past.yield = yield_counted(blanks, known.quantities());
  return past;
}

Record record_of(Register& known, const ShopPast& past, const std::string& order_id) {
  Record record{.issued_to_order = known.issued_to(order_id),
                .witnesses = known.witnesses_of(order_id),
                .blanks = {},
                .replaced = {},
                .no_more_witnesses = false,
                .baths = {},
                .loads = {},
                .promised = {},
                .yield = past.yield,
                .axis = past.axis,
                .uptake = past.uptake,
                .bond = past.bond};
  for (const KnownBlank& blank : known.blanks_of_order(order_id)) {
    const BlankSummary& seen = blank.blank;
    if (seen.stage == Stage::withdrawn) continue;
    if (seen.order != order_id) {
      if (seen.promised == order_id) record.promised.push_back(seen);
    } else if (seen.begun || seen.promised != order_id) {
      record.blanks.push_back(*known.blank(*seen.id));
      if (!seen.bath.empty() && !record.baths.contains(seen.bath))
        record.baths.emplace(seen.bath, known.bath(seen.bath));
      for (const std::string& load : {seen.load, seen.drying}) {
        if (!load.empty() && !record.loads.contains(load)) record.loads.emplace(load, known.load(load));
      }
    }
  }
  return record;
}

}  // namespace blankwright
