#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "commands/commands.h"
#include "commands/gates.h"
#include "commands/harmless_stream.h"
#include "commands/not_entered.h"
#include "commands/open_shop.h"
#include "commands/output.h"
#include "measure/elapsed.h"
#include "plan/routing/standing.h"
#include "plan/shop/against_plan.h"
#include "sheet/paper/wording.h"
#include "sheet/sheet/today_sheet.h"
#include "write/today_text.h"

namespace blankwright {
namespace {

/// Takes a blank's HOLD together with the same one of other blanks.
void add_held(std::vector<HeldNow>& all, HeldNow one) {
  const auto same = std::ranges::find_if(all, [&](const HeldNow& other) {
    return other.order == one.order && other.gate == one.gate && other.reason == one.reason;
  });
  if (same != all.end()) {
    same->blanks.push_back(std::move(one.blanks.front()));
  } else {
    all.push_back(std::move(one));
  }
}

/// What the gates hold of the blanks that are in the shop, and what they went past.
std::vector<HeldNow> held_now(AtRegister& at, Instant now) {
  const Wording wording = wording_of(at.inputs.sheet_template);
  Gates gates{at.known, at.inputs.shop};
  std::vector<HeldNow> out;
  for (const KnownBlank& known : at.known.known_blanks()) {
    if (!known.blank.begun || known.blank.stage >= Stage::sent) continue;
    const auto blank = at.known.blank(*known.blank.id);
    const std::string where = text(place_of(known.blank), wording);
    for (const Judged& judged : gates.judge(*blank, now)) {
      if (!judged.is_wrong()) continue;
      add_held(out, {blank->promised,
                     text(says_of(judged.gate), wording),
                     text(judged.reason, wording),
                     {blank->id->shown()},
                     where});
    }
    for (const HoldPassed& passed : gates.holds_passed(*blank)) {
      add_held(out, {blank->promised,
                     passed.operation->name.value,
                     passed.operation->hold->value,
                     {blank->id->shown()},
                     where,
                     passed.number});
    }
  }
  return out;
}

/// Of an order's blanks those that a gate holds, and before what.
std::vector<BlankOnHold> on_hold(const Record& record, const PlacedTimes& times, Gates& gates, Instant now) {
  std::vector<BlankOnHold> out;
  const std::set<BlankId> held = gates.held(record.blanks, now);
  for (const BlankState& blank : record.blanks) {
    // What has to soak again goes where that HOLD sends it.
    if (!held.contains(*blank.id) || record.soak_again.contains(*blank.id)) continue;
    const auto bath = record.baths.find(blank.bath);
    const Standing at = standing_of(blank, bath == record.baths.end() ? BathState{} : bath->second, times.routing);
    if (at.next < times.routing.size()) out.push_back({at.next, blank.bath, blank.load});
  }
  return out;
}

/// What waits longer for what is next than it may.
std::vector<WaitsTooLong> waits_too_long(const OpenShop& open, const Shop& shop) {
  std::vector<WaitsTooLong> out;
  for (std::size_t i = 0; i < open.times.size(); ++i) {
    const OrderTimes& times = open.times.at(i);
    for (const BrokenWait& wait : broken_waits(open.planned.to_make.at(i), times)) {
      const OperationFacts* facts = times.routing.at(wait.step);
      const Duration longest = facts->longest_wait->value;
      out.push_back({open.planned.orders.at(i).id, facts->name.value,
                     static_cast<std::size_t>(facts - shop.routing.data()), wait.blanks, wait.since,
                     std::chrono::ceil<std::chrono::minutes>(wait.start - later(wait.since, longest)), longest});
    }
  }
  return out;
}

/// The orders that are to start more blanks than have an ID.
std::vector<WithoutId> without_id(const PlannedTogether& planned) {
  std::vector<WithoutId> out;
  for (const PlannedOrder& order : planned.orders) {
    const int issued = static_cast<int>(order.record.issued_to_order.size());
    const int pieces = order.to_start - order.witnesses - (issued - order.record.witnesses);
    const int lacking = std::max(pieces, 0) + std::max(order.witnesses - order.record.witnesses, 0);
    if (lacking > 0) out.push_back({order.id, lacking});
  }
  return out;
}

Today day_of(const OpenShop& open, Register& known, const Shop& shop) {
  Gates gates{known, shop};
  std::vector<OrderWithTimes> orders;
  for (std::size_t i = 0; i < open.times.size(); ++i) {
    const PlannedOrder& order = open.planned.orders.at(i);
    orders.push_back(
        {order.id, &open.times.at(i), on_hold(order.record, open.times.at(i), gates, open.planned.time.at)});
  }
  const ShopTime& time = open.planned.time;
  ShopPlan if_nothing;
  if_nothing.orders.resize(orders.size());
  if (const auto next = next_day_of_work(time)) {
    Diagnostics ignored;
    if_nothing = plan_shop(open.planned.to_make, shop, shop_time(shop, *next), ignored);
  }
  return today_of(orders, if_nothing, shop, time);
}

}  // namespace

Exit today(const TodayFlags& flags, Surroundings& around) {
  auto at = at_register(flags.shop, around, OpenTo::read);
  if (!at) return Exit::mistakes;
  const auto now = moment_asked(flags.at, at->zone(), NamedFrom::Days::ahead, around);
  if (!now) return Exit::command_line;
  const Shop& shop = at->inputs.shop;
  Diagnostics out;
  const OpenShop open = plan_open_shop(at->register_place, shop, *now, out);
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  const TodayFacts facts{shop,
                         at->inputs.sheet_template,
                         *now,
                         at->known.last_entry(),
                         program_version(),
                         day_of(open, at->known, shop),
                         not_entered(at->known, shop, open.planned),
                         held_now(*at, *now),
                         waits_too_long(open, shop),
                         without_id(open.planned)};
  if (!flags.out.empty()) {
    const SheetFonts& fonts = sheet_fonts();
    const DocumentInfo info = shop_document(shop, at->inputs.sheet_template, today_title(facts), *now);
    around.disk.write_whole(flags.out, pdf_of(today_sheets(facts, fonts.metrics), info, fonts.files));
  }
  around.out << (flags.as == "json" ? today_as_json(facts) : today_as_text(facts));
  return out.has_errors() ? Exit::mistakes : Exit::done;
}

}  // namespace blankwright
