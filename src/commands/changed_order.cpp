#include "commands/changed_order.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <memory>
#include <optional>

#include "commands/gates.h"

namespace blankwright {
namespace {

constexpr std::size_t most_named = 8;

/// An order as a print of it had it, with the shop that its plan points into.
struct AsPrinted {
  Shop shop;
  Order order;
  std::optional<OrderPlan> plan;
};

std::unique_ptr<const AsPrinted> as_printed(const std::string& id, const TextsInForce& texts) {
  Diagnostics unheard;
  const auto source = [&](const std::string& text) {
    return std::make_shared<const SourceText>(SourceText{id, text});
  };
  auto shop = read_shop(source(texts.shop), unheard);
  auto order = read_order(source(texts.job), unheard);
  if (!shop || !order) return nullptr;
  auto printed = std::make_unique<AsPrinted>(AsPrinted{std::move(*shop), std::move(*order), {}});
  printed->plan = plan_order(printed->order, printed->shop, Record{}, unheard);
  return printed->plan ? std::move(printed) : nullptr;
}

/// When the blank got its bore, or else when something was first done for it.
std::optional<Instant> made_at(Register& known, const BlankState& blank) {
  std::optional<Instant> at;
  const std::vector<Entry> entries = known.entries_of(*blank.id);
  for (const Entry* entry : holding(entries)) {
    if (entry->kind == EntryKind::issued || entry->kind == EntryKind::promised) continue;
    if (!at || (entry->kind == EntryKind::bored && blank.stage >= Stage::bored)) at = entry->at;
  }
  return at;
}

}  // namespace

std::vector<FitsNoMore> fit_no_more(Register& known, const Record& record, const OpenOrder& now) {
  std::vector<FitsNoMore> out;
  const std::string& id = now.order->id.value;
  std::map<int, std::unique_ptr<const AsPrinted>> prints;
  for (const BlankState& blank : record.blanks) {
    if (blank.witness || blank.is_over() || blank.stage >= Stage::turned || blank.promised != id) continue;
    const auto at = made_at(known, blank);
    const auto texts = at ? known.texts_in_force(id, *at) : std::nullopt;
    if (!texts) continue;
    auto& printed = prints.try_emplace(texts->print).first->second;
    if (printed == nullptr) printed = as_printed(id, *texts);
    if (printed == nullptr) continue;
    const auto answer = could_become({blank, printed->order, *printed->plan}, std::span{&now, 1});
    if (!answer.empty() && answer.front().against != Against::nothing) out.push_back({blank, answer.front().against});
  }
  return out;
}

void say_fit_no_more(Register& known, const std::vector<FitsNoMore>& blanks, const OpenOrder& now, Diagnostics& out) {
  if (blanks.empty()) return;
  Gates gates{known, *now.shop};
  std::vector<std::string> named;
  for (const auto& [blank, against] : blanks) {
    if (named.size() == most_named) {
      named.push_back(fmt::format("and {} more", blanks.size() - most_named));
      break;
    }
    auto others = gates.could_become(blank, false);
    std::erase_if(others, [&](const std::string& line) { return line.starts_with(now.order->id.value + ":"); });
    named.push_back(fmt::format("{} ({}{})", blank.id->shown(), in_words(against),
                                others.empty() ? std::string{} : "; could become " + others.front()));
  }
  out.warning(Problem::blanks_do_not_fit, now.order->id.at,
              fmt::format("of the blanks that were begun {} not fit the order as it is now: {}",
                          blanks.size() == 1 ? "one does" : fmt::format("{} do", blanks.size()), fmt::join(named, ", ")))
      .hint("promise each to another order, or scrap it; others are started in their place by --replace");
}

void say_not_needed(const Record& record, const Order& order, const StartCount& start, Diagnostics& out) {
  std::vector<std::string> unbegun;
  const std::size_t pieces = record.issued_to_order.size() - static_cast<std::size_t>(record.witnesses);
  for (std::size_t n = 0; n < pieces; ++n) {
    const BlankId& id = record.issued_to_order.at(n);
    const auto is_it = [&](const BlankState& blank) { return blank.id == id; };
    if (std::ranges::none_of(record.blanks, is_it)) unbegun.push_back(id.shown());
  }
  const std::size_t needed = static_cast<std::size_t>(std::max(start.needed, 0));
  const std::size_t spare = pieces > needed ? std::min(pieces - needed, unbegun.size()) : 0;
  if (spare == 0) return;
  unbegun.erase(unbegun.begin(), unbegun.end() - static_cast<std::ptrdiff_t>(spare));
  out.note(Problem::ids_not_needed, order.quantity.at,
           fmt::format("{} of the order's IDs {} never sawn and {} not needed", spare, spare == 1 ? "was" : "were",
                       spare == 1 ? "is" : "are"))
      .hint(fmt::format("blankwright enter withdrawn {}", fmt::join(unbegun, " ")));
}

}  // namespace blankwright
