#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "commands/commands.h"
#include "commands/gates.h"
#include "commands/harmless_stream.h"
#include "commands/open_shop.h"
#include "commands/output.h"
#include "plan/shop/kept_plan.h"
#include "sheet/sheet/today_sheet.h"
#include "write/today_text.h"

namespace blankwright {
namespace {

/// What was to be over by now, by what was printed of each order last, and was not entered; of each order the first
/// that is so, since what comes after it waits for it.
std::vector<NotEntered> not_entered(Register& known, const Shop& shop, const OpenShop& open, Instant now) {
  std::vector<NotEntered> out;
  for (std::size_t i = 0; i < open.times.size(); ++i) {
    const std::string& id = open.planned.orders.at(i).id;
    const OrderToMake& to_make = open.planned.to_make.at(i);
    const auto print = known.print_of_order(id);
    if (!print) continue;
    const auto& routing = open.times.at(i).routing;
    for (const KeptOperation& planned : read_kept_plan(print->plan)) {
      const auto named =
          std::ranges::find_if(routing, [&](const auto* facts) { return facts->name.value == planned.name; });
      if (planned.at.to > now || named == routing.end()) continue;
      const auto operation = static_cast<std::size_t>(named - routing.begin());
      const int left = blanks_before(operation, to_make);
      if (left == 0) continue;
      out.push_back({id, planned.name, static_cast<std::size_t>(*named - shop.routing.data()), left,
                     std::max(left, planned.blanks), planned.at.to});
      break;
    }
  }
  return out;
}

/// What the gates hold of the blanks that are in the shop.
std::vector<HeldNow> held_now(AtRegister& at, Instant now) {
  Gates gates{at.known, at.inputs.shop};
  std::vector<HeldNow> out;
  for (const KnownBlank& known : at.known.known_blanks()) {
    if (!known.blank.begun || known.blank.stage >= Stage::sent) continue;
    const auto blank = at.known.blank(*known.blank.id);
    for (const Judged& judged : gates.judge(*blank, now)) {
      if (!judged.is_wrong()) continue;
      const std::string gate{name_of(judged.gate)};
      const auto same = std::ranges::find_if(out, [&](const HeldNow& one) {
        return one.order == blank->promised && one.gate == gate && one.reason == judged.reason;
      });
      if (same != out.end()) {
        same->blanks.push_back(blank->id->shown());
      } else {
        out.push_back({blank->promised, gate, judged.reason, {blank->id->shown()}, blank->place()});
      }
    }
  }
  return out;
}

Today day_of(const OpenShop& open, const Shop& shop) {
  std::vector<OrderWithTimes> orders;
  for (std::size_t i = 0; i < open.times.size(); ++i)
    orders.push_back({open.planned.orders.at(i).id, &open.times.at(i)});
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
  const OpenShop open = plan_open_shop(at->register_file, shop, *now, out);
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  const TodayFacts facts{shop,
                         at->inputs.sheet_template,
                         *now,
                         at->known.last_entry(),
                         program_version(),
                         day_of(open, shop),
                         not_entered(at->known, shop, open, *now),
                         held_now(*at, *now)};
  if (!flags.out.empty()) {
    const SheetFonts& fonts = sheet_fonts();
    const DocumentInfo info = shop_document(shop, at->inputs.sheet_template, today_title(facts), *now);
    around.disk.write_whole(flags.out, pdf_of(today_sheets(facts, fonts.metrics), info, fonts.files));
  }
  around.out << (flags.as == "json" ? today_as_json(facts) : today_as_text(facts));
  return out.has_errors() ? Exit::mistakes : Exit::done;
}

}  // namespace blankwright
