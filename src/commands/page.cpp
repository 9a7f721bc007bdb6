#include <fmt/format.h>

#include <map>
#include <ostream>

#include "commands/at_register.h"
#include "commands/commands.h"
#include "commands/gates.h"
#include "commands/output.h"
#include "commands/shipped.h"
#include "read/entry_text.h"
#include "write/register_page.h"

namespace blankwright {
namespace {

PageOrder order_of(const StoredOrder& stored, std::string job) {
  Diagnostics ignored;
  const auto order = read_order(std::make_shared<const SourceText>(SourceText{stored.id, std::move(job)}), ignored);
  if (!order) return {stored.id, "", "", "", stored.gist.quantity};
  return {stored.id, order->client.value, order->item.value, order->due ? text(order->due->value) : std::string{},
          order->quantity.value};
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

PageBlank blank_of(const BlankId& id, AtRegister& at, Gates& gates, Instant now) {
  const auto entries = at.known.entries_of(id);
  const BlankState state = state_of(entries);
  PageBlank page{id.shown(), state.promised, std::string{name_of(state.stage)}, state.place(), {}, {}, {}};
  page.facts = {{"Order", state.promised}, {"Stage", page.stage}, {"Place", page.place}};
  const auto add = [&](const char* name, const std::string& value) {
    if (!value.empty()) page.facts.emplace_back(name, value);
  };
  if (state.order != state.promised) add("Issued to", state.order);
  add("Board", state.board);
  add("Bath", state.bath);
  add("Load", state.load);
  add("Reason", state.reason);
  const std::vector<Judged> judgements = gates.judge(state, now);
  for (const Judged& judged : judgements) {
    page.gates.push_back({fmt::format("{}: {}", name_of(judged.gate), in_words(judged)), judged.is_wrong()});
    for (const std::string& line : judged.details) page.gates.push_back({line, false});
  }
  for (const HoldPassed& passed : gates.holds_passed(state))
    page.gates.push_back({fmt::format("not entered: {}", in_words(passed)), false});
  for (const Way& way : gates.could_become(state, Gates::Tell::fitting)) add("Could become", in_words(way));
  if (const auto against = gates.against_last_step(state, judgements))
    page.gates.push_back({against->words, against->verdict == Verdict::held});
  page.history = history_of(entries, at, gates);
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
                   {}};
  for (const StoredOrder& order : at->known.stored_orders()) {
    out.orders.push_back(order_of(order, at->known.stored_job(order.id).value_or("")));
  }
  for (const KnownBlank& known : at->known.known_blanks()) {
    out.blanks.push_back(blank_of(*known.blank.id, *at, gates, now));
  }
  around.disk.write_whole(flags.out,
                          register_page(out, {shipped("page.html"), shipped("page.css"), shipped("page.js")}));
  around.out << fmt::format("{}: {}, {}\n", flags.out, counted(std::ssize(out.orders), "order"),
                            counted(std::ssize(out.blanks), "blank"));
  return Exit::done;
}

}  // namespace blankwright
