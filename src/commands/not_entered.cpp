#include "commands/not_entered.h"

#include <algorithm>

#include "commands/open_shop.h"
#include "plan/shop/kept_plan.h"

namespace blankwright {
namespace {

/// What a print planned, and while it was in force.
struct PrintInForce {
  std::vector<KeptOperation> runs;
  Instant made, until;
  int blanks = 0;  ///< that had an ID by then
};

std::vector<PrintInForce> plans_in_force(Register& known, const std::string& order, Instant now) {
  const std::vector<PlannedThen> plans = known.plans_of(order);
  std::vector<Instant> issued;
  for (const BlankId& id : known.issued_to(order)) issued.push_back(known.entries_of(id).front().at);
  std::vector<PrintInForce> out;
  for (std::size_t i = 0; i < plans.size(); ++i) {
    const Instant next = i + 1 < plans.size() ? plans.at(i + 1).made : now;
    const auto blanks = std::ranges::count_if(issued, [&](Instant at) { return at <= plans.at(i).made; });
    out.push_back(
        {read_kept_runs(plans.at(i).plan), plans.at(i).made, std::min(next, now), static_cast<int>(blanks)});
  }
  return out;
}

/// Of an operation's blanks: `here` stand before it, `left` have it still to come, of `all` that the order has.
struct Open {
  int here = 0, left = 0, all = 0;
};

/// Of these those that a print planned to be through while it was in force, as far as the others' number tells.
NotEntered due_of(const std::string& operation, const PrintInForce& print, const Open& open) {
  NotEntered asked;
  int due = 0;
  for (const KeptOperation& run : print.runs) {
    if (run.name != operation) continue;
    const int blanks = run.blanks == 0 ? open.all : run.blanks;
    asked.of += blanks;
    if (run.at.to > print.until) continue;
    asked.due = due == 0 ? run.at.to : std::min(asked.due, run.at.to);
    due += blanks;
  }
  const int started_since =
      std::max(0, open.all - print.blanks);  // and has it still to come, whatever the print said
  const int through = std::max(0, asked.of - std::max(0, open.left - started_since));
  asked.open = std::clamp(due - through, 0, open.here);
  asked.of = std::max(asked.of, asked.open);
  return asked;
}

/// Blanks that stand before an operation again, or later than planned, since their HOLD sent them back after a print
/// was made: what that planned is no longer theirs.
int sent_back_since(Instant print, std::size_t step, const OrderToMake& order) {
  int back = 0;
  for (const auto* groups : {&order.waiting_pieces, &order.waiting_witnesses, &order.under_way}) {
    for (const BlankGroup& group : *groups) {
      if (group.at.next != step) continue;
      if (group.again) back += group.pieces + group.witnesses;
      if (!group.again && group.soaked_again && *group.soaked_again > print) back += group.soaked_before;
    }
  }
  return back;
}

}  // namespace

std::vector<NotEntered> not_entered(Register& known, const Shop& shop, const PlannedTogether& planned) {
  std::vector<NotEntered> out;
  for (std::size_t i = 0; i < planned.orders.size(); ++i) {
    const std::string& order = planned.orders.at(i).id;
    const auto prints = plans_in_force(known, order, planned.time.at);
    const auto& routing = planned.plan.orders.at(i).times->routing;
    int before = 0;
    for (std::size_t step = 0; step < routing.size(); ++step) {
      const OperationFacts& facts = *routing.at(step);
      if (facts.is(PlannedWork::cooling)) continue;  // what lies sealed may lie on: what comes next is asked about
      const OrderToMake& to_make = planned.to_make.at(i);
      const int left = blanks_before(step, to_make);
      const int here = left - before;
      before = left;
      NotEntered most;
      for (const PrintInForce& print : prints) {
        const Open open{here - sent_back_since(print.made, step, to_make), left,
                        to_make.started + to_make.witnesses_started};
        NotEntered asked = due_of(facts.name.value, print, open);
        if (asked.open > most.open) most = asked;
      }
      if (most.open == 0) continue;
      most.order = order;
      most.operation = facts.name.value;
      most.number = static_cast<std::size_t>(&facts - shop.routing.data());
      out.push_back(std::move(most));
    }
  }
  return out;
}

}  // namespace blankwright
