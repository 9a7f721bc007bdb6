#include "commands/changed_order.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <memory>
#include <optional>

#include "commands/gates.h"
#include "commands/made_for.h"
#include "plan/order/plan_order.h"

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

/// The prints of orders that were in force when something was done, each planned once.
class Prints {
 public:
  explicit Prints(Register& known) : known_{known} {}

  /// Null where the order cannot be planned any more as it was printed then.
  const AsPrinted* in_force(const std::string& order, Instant at) {
    const auto texts = known_.texts_in_force(order, at);
    if (!texts) return nullptr;
    const auto [place, is_new] = printed_.try_emplace({order, texts->print});
    if (is_new) place->second = as_printed(order, *texts);
    return place->second.get();
  }

 private:
  Register& known_;
  std::map<std::pair<std::string, int>, std::unique_ptr<const AsPrinted>> printed_;
};

/// When the blank got its bore, or else when something was first done for it, or else any time.
Instant made_at(const std::vector<Entry>& entries, const BlankState& blank) {
  std::optional<Instant> at;
  for (const Entry* entry : holding(entries)) {
    if (entry->kind == EntryKind::issued || entry->kind == EntryKind::promised) continue;
    if (!at || (entry->kind == EntryKind::bored && blank.stage >= Stage::bored)) at = entry->at;
  }
  return at.value_or(Instant::max());
}

/// What stands against the blank for the order as it is now; none where that is not known.
std::optional<Against> against(Register& known, Prints& prints, const BlankState& blank, const OpenOrder& now) {
  const std::vector<Entry> entries = known.entries_of(*blank.id);
  const AsPrinted* own = prints.in_force(blank.order, made_at(entries, blank));
  if (own == nullptr) return std::nullopt;
  BlankOffered offered{blank, own->order, *own->plan};
  const MadeFor made = made_for(entries, blank);
  const auto done_for = [&](const std::optional<MadeFor::Step>& step, DoneFor& done) {
    if (!step || step->order == blank.order) return true;
    const AsPrinted* printed = prints.in_force(step->order, step->at);
    if (printed != nullptr) done = {&printed->order, &*printed->plan};
    return printed != nullptr;
  };
  const bool all_known = done_for(made.bathed, offered.bathed) && done_for(made.bored, offered.bored) &&
                         done_for(made.stud_set, offered.stud_set);
  if (!all_known) return std::nullopt;
  const auto answer = could_become(offered, std::span{&now, 1});
  return answer.empty() ? Against::nothing : answer.front().against;
}

std::string does(std::size_t count) { return count == 1 ? "one does" : fmt::format("{} do", count); }

/// Each with what stands against it and the first order that it could become, as far as they find room.
std::string named(const std::vector<const FitsNoMore*>& blanks, const std::string& order, Gates& gates) {
  std::vector<std::string> all;
  for (const FitsNoMore* one : blanks) {
    if (all.size() == most_named) {
      all.push_back(fmt::format("and {} more", blanks.size() - most_named));
      break;
    }
    if (!one->against) {
      all.push_back(one->blank.id->shown());
      continue;
    }
    auto others = gates.could_become(one->blank, false);
    std::erase_if(others, [&](const std::string& line) { return line.starts_with(order + ":"); });
    all.push_back(fmt::format("{} ({}{})", one->blank.id->shown(), in_words(*one->against),
                              others.empty() ? std::string{} : "; could become " + others.front()));
  }
  return fmt::format("{}", fmt::join(all, ", "));
}

}  // namespace

std::vector<FitsNoMore> fit_no_more(Register& known, const Record& record, const OpenOrder& now) {
  const std::string& id = now.order->id.value;
  std::vector<BlankState> looked_at = record.blanks;
  for (const BlankSummary& promised : record.promised) looked_at.push_back(*known.blank(*promised.id));
  std::vector<FitsNoMore> out;
  Prints prints{known};
  for (BlankState& blank : looked_at) {
    if (blank.witness || blank.is_over() || blank.stage >= Stage::turned || blank.promised != id) continue;
    const auto why = against(known, prints, blank, now);
    if (why != Against::nothing) out.push_back({std::move(blank), why});
  }
  return out;
}

void say_fit_no_more(Register& known, const std::vector<FitsNoMore>& blanks, const OpenOrder& now, Diagnostics& out) {
  std::vector<const FitsNoMore*> own, promised, unknown;
  for (const FitsNoMore& one : blanks)
    (!one.against ? unknown : one.is_promised_in() ? promised : own).push_back(&one);
  Gates gates{known, *now.shop};
  const auto say = [&](const std::vector<const FitsNoMore*>& some, const std::string& what) -> Diagnostic* {
    if (some.empty()) return nullptr;
    return &out.warning(Problem::blanks_do_not_fit, now.order->id.at,
                        what + ": " + named(some, now.order->id.value, gates));
  };
  if (auto* said =
          say(own, fmt::format("of the blanks that were begun {} not fit the order as it is now", does(own.size()))))
    said->hint("promise each to another order, or scrap it; others are started in their place by --replace");
  if (auto* said = say(promised, fmt::format("of the blanks promised to the order {} not fit it and {} not counted",
                                             does(promised.size()), promised.size() == 1 ? "is" : "are")))
    said->hint("promise each to another order, or scrap it");
  if (auto* said = say(unknown,
                       "whether they fit is not known, since what was printed when they were begun cannot be "
                       "planned any more"))
    said->hint("hold them against the turner's sheet");
}

void say_not_needed(const Record& record, const Order& order, int needed_pieces, Diagnostics& out) {
  std::vector<std::string> unbegun;
  const std::size_t pieces = record.issued_to_order.size() - static_cast<std::size_t>(record.witnesses);
  for (std::size_t n = 0; n < pieces; ++n) {
    const BlankId& id = record.issued_to_order.at(n);
    const auto is_it = [&](const BlankState& blank) { return blank.id == id; };
    if (std::ranges::none_of(record.blanks, is_it)) unbegun.push_back(id.shown());
  }
  const std::size_t needed = static_cast<std::size_t>(std::max(needed_pieces, 0));
  const std::size_t spare = pieces > needed ? std::min(pieces - needed, unbegun.size()) : 0;
  if (spare == 0) return;
  unbegun.erase(unbegun.begin(), unbegun.end() - static_cast<std::ptrdiff_t>(spare));
  out.note(Problem::ids_not_needed, order.quantity.at,
           fmt::format("{} of the order's IDs {} never sawn and {} not needed", spare, spare == 1 ? "was" : "were",
                       spare == 1 ? "is" : "are"))
      .hint(fmt::format("blankwright enter withdrawn {}", fmt::join(unbegun, " ")));
}

}  // namespace blankwright
