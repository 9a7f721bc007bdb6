#include "plan/shop/against_plan.h"

#include <algorithm>
#include <map>

#include "diagnose/problem.h"
#include "diagnose/says_shop.h"
#include "measure/elapsed.h"
#include "measure/quantity_text.h"

namespace blankwright {
namespace {

/// Blanks of one order that wait for the same operation.
struct WaitingFor {
  int blanks = 0;
  std::optional<Instant> since;  ///< the first of them
  bool is_to_come = false;       ///< what goes on with it ends then
};

Saying waiting(int blanks) { return blanks == 1 ? say(says::a_blank_waits) : say(says::blanks_wait, blanks); }

std::optional<Instant> planned_start(const PlannedOperation& operation) {
  const auto run = std::ranges::find(operation.runs, RunIs::planned, &PlannedRun::is);
  return run == operation.runs.end() ? std::nullopt : std::optional{run->at.from};
}

}  // namespace

std::vector<BrokenWait> broken_waits(const OrderToMake& order, const PlacedTimes& times) {
  std::map<std::size_t, WaitingFor> waiting;  // by operation
  for (const auto* groups : {&order.waiting_pieces, &order.waiting_witnesses, &order.under_way}) {
    for (const BlankGroup& group : *groups) {
      const std::optional<Instant> since = group.free_from ? group.free_from : group.waits_since;
      if (!since || group.at.next >= times.routing.size()) continue;
      WaitingFor& all = waiting[group.at.next];
      all.blanks += group.pieces + group.witnesses;
      all.is_to_come = group.free_from && (!all.since || *since < *all.since);
      all.since = std::min(all.since.value_or(*since), *since);
    }
  }
  std::vector<BrokenWait> broken;
  for (const auto& [step, all] : waiting) {
    const OperationFacts& facts = *times.routing.at(step);
    const auto start = planned_start(times.planned.operations.at(step));
    if (!facts.longest_wait || !start || between(*all.since, *start) <= facts.longest_wait->value) continue;
    broken.push_back({step, all.blanks, *all.since, all.is_to_come, *start});
  }
  return broken;
}

void tell_broken_waits(const OrderToMake& order, const PlacedTimes& times, const Zone& zone, Diagnostics& said) {
  for (const BrokenWait& wait : broken_waits(order, times)) {
    const OperationFacts& facts = *times.routing.at(wait.step);
    said.warning(Problem::wait_broken, facts.longest_wait->at,
                 wait.is_to_come ? says::will_wait : says::wait_is_broken, order.id, waiting(wait.blanks),
                 Moment{zone, wait.since}, facts.name.value, Moment{zone, wait.start},
                 printed(facts.longest_wait->value))
        .hint(says::look_at_them_first);
  }
}

void tell_load_waits(std::string_view bath, std::span<const OperationFacts* const> routing,
                     std::span<const Operation> ops, const OrderSchedule& planned, Diagnostics& said) {
  for (std::size_t i = 1; i < ops.size(); ++i) {
    const OperationFacts& facts = *routing[ops[i].step];
    // What follows the step before it is held to its wait by the schedule; a further load is not.
    const bool is_further = ops[i - 1].step >= ops[i].step;
    const bool is_last =
        std::ranges::none_of(ops.subspan(i + 1), [&](const Operation& op) { return op.step == ops[i].step; });
    if (!facts.longest_wait || !is_further || !is_last) continue;
    const auto first = static_cast<std::size_t>(std::ranges::find(ops, ops[i].step, &Operation::step) - ops.begin());
    const Instant since = first > 0 ? planned.operations.at(first - 1).end : planned.operations.front().start;
    const Duration wait =
        duration_of(std::chrono::ceil<std::chrono::minutes>(planned.operations.at(i).start - since));
    if (wait <= facts.longest_wait->value) continue;
    said.warning(Problem::load_waits_too_long, facts.longest_wait->at, says::last_load_waits, bath, printed(wait),
                 facts.name.value)
        .hint(says::fewer_or_longer_wait, printed(wait));
  }
}

void tell_wait_behind(const OrderToMake& order, const OperationFacts& facts, const Operation& op, Instant ends,
                      Instant begins, const Zone& zone, Diagnostics& said) {
  const Duration wait = duration_of(std::chrono::ceil<std::chrono::minutes>(begins - ends));
  said.warning(Problem::wait_broken, facts.longest_wait->at, says::will_wait, order.id, waiting(op.pieces),
               Moment{zone, ends}, facts.name.value, Moment{zone, begins}, printed(facts.longest_wait->value))
      .hint(says::wait_that_does, printed(wait));
}

void tell_runs_too_long(const OrderToMake& order, const PlacedTimes& times, const Zone& zone, Diagnostics& said) {
  for (std::size_t step = 0; step < times.routing.size(); ++step) {
    const OperationFacts& facts = *times.routing.at(step);
    if (!facts.most) continue;
    for (const PlannedRun& run : times.planned.operations.at(step).runs) {
      if (run.is != RunIs::running || between(run.at.from, run.at.to) <= facts.most->value) continue;
      said.warning(Problem::runs_too_long, facts.most->at, says::runs_beyond_most, order.id, facts.name.value,
                   Moment{zone, run.at.from}, Moment{zone, run.at.to}, printed(facts.most->value))
          .hint(says::end_it_sooner);
    }
  }
}

std::optional<Instant> nobody_from(Instant until, const ShopTime& time) {
  const Instant closes = end_of_stretch(time.calendar, time.at).value_or(time.at);
  return closes < until ? std::optional{closes} : std::nullopt;
}

std::optional<Interval> outage_meanwhile(const std::string& resource, const Interval& run, const ShopTime& time) {
  const auto outages = time.outages.find(resource);
  if (outages == time.outages.end()) return std::nullopt;
  for (const Interval& outage : outages->second) {
    if (outage.to > std::max(run.from, time.at) && outage.from < run.to) return outage;
  }
  return std::nullopt;
}

std::optional<OutageAwaited> outage_awaited(const PlacedTimes& times, Instant due, const ShopTime& time) {
  std::optional<OutageAwaited> longest;
  Instant before = time.at;
  for (const PlannedOperation& operation : times.planned.operations) {
    for (const PlannedRun& run : operation.runs) {
      const auto outages = time.outages.find(run.resource);
      if (run.is != RunIs::planned || outages == time.outages.end()) continue;
      for (const Interval& outage : outages->second) {
        const bool is_waited_for = outage.to <= run.at.from && (outage.to > due || outage.to > before);
        if (is_waited_for && outage.to > longest.value_or(OutageAwaited{{}, time.at}).until)
          longest = OutageAwaited{run.resource, outage.to};
      }
    }
    before = std::max(before, operation.end);
  }
  return longest;
}

void tell_of_running(const OrderToMake& order, std::span<const Operation> ops, const OrderSchedule& planned,
                     const ShopTime& time, Diagnostics& said) {
  const Zone& zone = time.working.zone;
  for (std::size_t i = 0; i < ops.size(); ++i) {
    const PlannedRun& run = planned.operations.at(i).runs.front();
    if (run.is != RunIs::running || !run.least_end || *run.least_end <= time.at) continue;
    const auto alone = ops[i].unattended ? std::nullopt : nobody_from(*run.least_end, time);
    if (alone) {
      said.warning(Problem::runs_alone, {}, says::nobody_stays, order.id, ops[i].name, Moment{zone, run.at.from},
                   Moment{zone, *run.least_end}, Moment{zone, *alone})
          .hint(says::stay_or_end_it);
    }
    if (const auto outage = outage_meanwhile(run.resource, {run.at.from, *run.least_end}, time)) {
      said.warning(Problem::runs_into_outage, {}, says::out_of_order_meanwhile, order.id, ops[i].name, run.resource,
                   Moment{zone, run.at.from}, Moment{zone, outage->from}, Moment{zone, outage->to})
          .hint(says::move_it_and_enter);
    }
  }
}

void tell_later_entries(const OrderToMake& order, Instant now, const Zone& zone, Diagnostics& said) {
  Instant last = now;
  for (const DoneBetween& past : order.past) {
    if (past.at) last = std::max(last, past.at->to);
  }
  if (last <= now) return;
  said.warning(Problem::entries_later, {}, says::entries_are_later, order.id, Moment{zone, last}, Moment{zone, now})
      .hint(says::plan_from_then);
}

}  // namespace blankwright
