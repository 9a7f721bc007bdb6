#include "commands/changed_order.h"

#include <map>
#include <memory>
#include <optional>
#include <utility>

#include "commands/gates.h"
#include "diagnose/problem.h"
#include "plan/order/plan_order.h"

namespace blankwright {
namespace {

/// An order as a print of it had it, with the shop that its plan points into.
struct AsPrinted {
  Shop shop;
  Order order;
  std::optional<OrderPlan> plan;
};

std::unique_ptr<const AsPrinted> as_printed(const std::string& id, const TextsInForce& texts) {
  Diagnostics ignored;
  const auto source = [&](const std::string& text) {
    return std::make_shared<const SourceText>(SourceText{id, text});
  };
  auto shop = read_shop(source(texts.shop), ignored);
  auto order = read_order(source(texts.job), ignored);
  if (!shop || !order) return nullptr;
  auto printed = std::make_unique<AsPrinted>(AsPrinted{std::move(*shop), std::move(*order), {}});
  printed->plan = plan_order(printed->order, printed->shop, Record{}, ignored);
  return printed->plan ? std::move(printed) : nullptr;
}

/// The prints of orders that were in force when something was done, each planned once.
class Prints {
 public:
  explicit Prints(Register& known) : known_{known} {}

  /// Null where the order cannot be planned any more as it was printed then.
  DoneFor in_force(const std::string& order, Instant at) {
    const auto texts = known_.texts_in_force(order, at);
    if (!texts) return {};
    const auto [place, is_new] = printed_.try_emplace({order, texts->print});
    if (is_new) place->second = as_printed(order, *texts);
    const auto& printed = place->second;
    return printed == nullptr ? DoneFor{} : DoneFor{&printed->order, &*printed->plan};
  }

 private:
  Register& known_;
  std::map<std::pair<std::string, int>, std::unique_ptr<const AsPrinted>> printed_;
};

}  // namespace

std::vector<FitsNoMore> fit_no_more(Register& known, const Record& record, const OpenOrder& now) {
  std::vector<BlankState> looked_at = record.blanks;
  for (const BlankSummary& promised : record.promised) looked_at.push_back(*known.blank(*promised.id));
  std::vector<FitsNoMore> out;
  Prints prints{known};
  const auto in_force = [&](const std::string& order, Instant at) { return prints.in_force(order, at); };
  for (BlankState& blank : looked_at) {
    if (!has_to_fit(blank, now.order->id.value)) continue;
    const auto why = against_as_made(blank, known.entries_of(*blank.id), now, in_force);
    if (why != Against::nothing) out.push_back({std::move(blank), why});
  }
  return out;
}

void say_fit_no_more(Register& known, const std::vector<FitsNoMore>& blanks, const OpenOrder& now, Diagnostics& out) {
  Gates gates{known, *now.shop};
  say_fit_no_more(
      blanks, *now.order, [&](const BlankState& blank) { return gates.could_become(blank, false); }, out);
}

}  // namespace blankwright
