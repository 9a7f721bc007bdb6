#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <ostream>
#include <tuple>

#include "commands/at_register.h"
#include "commands/commands.h"
#include "commands/gates.h"
#include "commands/open_shop.h"
#include "commands/output.h"
#include "commands/shipped.h"
#include "entries/fate.h"
#include "read/entry_text.h"
#include "sheet/paper/said_times.h"
#include "write/register_page.h"

namespace blankwright {
namespace {

/// How late open orders are, in words, as they are planned now.
std::map<std::string, std::string> late_orders(const AtRegister& at, Instant now) {
  Diagnostics ignored;  // of what cannot be planned nobody knows how late it will be
  const Shop& shop = at.inputs.shop;
  const OpenShop open = plan_open_shop(at.register_place, shop, now, ignored);
  std::map<std::string, std::string> out;
  for (std::size_t i = 0; i < open.times.size(); ++i) {
    const auto& delivery = open.times.at(i).delivery;
    if (delivery && delivery->late_by.count() > 0)
      out.emplace(open.planned.orders.at(i).id, late_text(at.inputs.sheet_template, delivery->late_by));
  }
  return out;
}

PageOrder order_of(const StoredOrder& stored, std::string job, const std::map<std::string, std::string>& late) {
  Diagnostics ignored;
  const auto order = read_order(std::make_shared<const SourceText>(SourceText{stored.id, std::move(job)}), ignored);
  PageOrder page{stored.id, "", "", "", "", stored.gist.quantity};
  if (const auto by = late.find(stored.id); by != late.end()) page.late = by->second;
  if (!order) return page;
  page.client = order->client.value;
  page.item = order->item.value;
  if (order->due) page.due = text(order->due->value);
  page.quantity = order->quantity.value;
  return page;
}

/// Orders that lack pieces before the others, in each of the two what is due first before the rest.
void sort_orders(std::vector<PageOrder>& orders, const std::vector<std::string>& lacking) {
  const auto turn = [&](const PageOrder& order) {
    const bool is_done = std::ranges::find(lacking, order.id) == lacking.end();
    return std::tuple{is_done, order.due.empty(), order.due};
  };
  std::ranges::stable_sort(orders, {}, turn);
}

std::vector<PageEntry> history_of(const std::vector<Entry>& entries, const AtRegister& at, Gates& gates) {
  std::map<EntryNumber, bool> replaced;
  for (const Entry& entry : entries) {
    if (entry.replaces) replaced[*entry.replaces] = true;
  }
  std::vector<PageEntry> rows;
  for (const Entry& entry : entries) {
    std::string says = says_text(entry, at.units());
    if (!entry.overridden.empty()) says += fmt::format(" (overridden: {})", entry.overridden);
    if (const std::string against = gates.against_in_words(entry); !against.empty())
      says += fmt::format(" ({})", against);
    rows.push_back({clock_text(at.zone(), entry.at), std::string{name_of(entry.kind)}, std::move(says), entry.person,
                    !replaced.contains(entry.number)});
  }
  return rows;
}

PageAnswer answer_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::held:
      return PageAnswer::hold;
    case Verdict::waits:
      return PageAnswer::wait;
    case Verdict::goes_on:
      return PageAnswer::pass;
  }
  return PageAnswer::pass;
}

std::vector<PageGate> gates_of(const BlankState& state, Gates& gates, Instant now) {
  std::vector<PageGate> out;
  const std::vector<Judged> judgements = gates.judge(state, now);
  for (const Judged& judged : judgements) {
    std::string words = in_words(judged);
    for (const Saying& line : judged.details) words += "; " + text(line);
    out.push_back({std::string{name_of(judged.gate)}, std::move(words), answer_of(judged.verdict)});
  }
  for (const HoldPassed& passed : gates.holds_passed(state))
    out.push_back({"not entered", in_words(passed), PageAnswer::wait});
  if (const auto against = gates.against_last_step(state, judgements))
    out.push_back({"last step", against->words, answer_of(against->verdict)});
  return out;
}

PageBlank blank_of(const BlankId& id, AtRegister& at, Gates& gates, Instant now) {
  const auto entries = at.known.entries_of(id);
  const BlankState state = state_of(entries);
  const BlankSummary summary = summary_of(state);
  PageBlank page{.id = id.shown(),
                 .order = state.promised,
                 .stage = fmt::format("{}{}", stage_words(summary), state.witness ? ", witness" : ""),
                 .place = text(place_of(summary)),
                 .facts = {},
                 .gates = gates_of(state, gates, now),
                 .history = history_of(entries, at, gates)};
  const auto add = [&](const char* name, const std::string& value) {
    if (!value.empty()) page.facts.emplace_back(name, value);
  };
  add("Stage", page.stage);
  add("Place", page.place);
  if (state.order != state.promised) add("Issued to", state.order);
  add("Board", state.board);
  add("Bath", state.bath);
  add("Load", state.load);
  add("Reason", state.reason);
  for (const Way& way : gates.could_become(state, Gates::Tell::fitting)) {
    if (way.order != state.promised) add("Could become", in_words(way));
  }
  return page;
}

}  // namespace

Exit page(const PageFlags& flags, Surroundings& around) {
  auto at = at_register(flags.shop, around, OpenTo::read);
  if (!at) return Exit::mistakes;
  const Instant now{std::chrono::seconds{around.clock.now_unix()}};
  Gates gates{at->known, at->inputs.shop};
  RegisterPage out{fmt::format("{}: register", at->inputs.shop.name.value),
                   clock_text(at->zone(), now),
                   std::to_string(at->known.last_entry()),
                   {},
                   {},
                   {}};
  const auto late = late_orders(*at, now);
  for (const StoredOrder& order : at->known.stored_orders()) {
    out.orders.push_back(order_of(order, at->known.stored_job(order.id).value_or(""), late));
  }
  const auto blanks = at->known.known_blanks();
  sort_orders(out.orders, orders_that_lack(blanks, at->known.quantities()));
  out.stages = by_stage(blanks);
  for (const KnownBlank& known : blanks) out.blanks.push_back(blank_of(*known.blank.id, *at, gates, now));
  around.disk.write_whole(flags.out,
                          register_page(out, {shipped("page.html"), shipped("page.css"), shipped("page.js")}));
  around.out << fmt::format("{}: {}, {}\n", flags.out, counted(std::ssize(out.orders), "order"),
                            counted(std::ssize(out.blanks), "blank"));
  return Exit::done;
}

}  // namespace blankwright
