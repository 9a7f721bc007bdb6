#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "lengths.h"
#include "rules.h"

namespace calendar_rules {
namespace {

constexpr const char* behind_what_goes_on = "wait behind what goes on";

/// Is it told that blanks of an order wait too long for an operation? It may be that no end of what is before it lets
/// somebody begin in time.
bool is_told(const Planned& planned, const std::string& order, const Operation& op) {
  return planned.plans.at(order).warns("wait-broken", '"' + op.name + '"');
}

/// A wait for what was over when the plan was made may be too long already.
bool was_over(const Planned& planned, const Chain& chain, const Doing& doing) {
  return doing.run.begun && doing.run.at.from + least_length(planned, chain, doing, doing.run.blanks) <= planned.at;
}

/// `rule`: what it is called.
void check_wait(const char* rule, const Planned& planned, const Chain& chain, const Doing& doing,
                const Chain& chain_before, const Doing& before, Breaches& out) {
  const Operation& op = operation(planned, doing);
  if (!op.longest_wait || doing.run.begun || was_over(planned, chain_before, before)) return;
  const bool told = chain.kind == Chain::Kind::order && is_told(planned, chain.name, op);
  const Minutes wait = doing.run.at.from - before.run.at.to;
  if (wait > *op.longest_wait && !told)
    out.push_back(
        {rule, fmt::format("{} after {}: waits {} min, at most {}", text_of(planned, chain, doing),
                           text_of(planned, chain_before, before), wait.count(), op.longest_wait->count())});
}

/// Do an order's pieces go from one step to another without any between?
bool follows(const Planned& planned, const std::string& order, std::size_t before, std::size_t step) {
  for (std::size_t between = before + 1; between < step; ++between) {
    const Operation& op = planned.shop.routing.at(between);
    if (applies(planned, order, op) && !op.only_witnesses) return false;
  }
  return before < step;
}

/// A further load of the oven goes in within the wait after the one before it came out, or that it cannot is told.
void check_further_load(const Planned& planned, const Chain& chain, const Doing& doing, const Doing& before,
                        Breaches& out) {
  const Operation& op = operation(planned, doing);
  const Minutes wait = doing.run.at.from - before.run.at.to;
  if (!op.longest_wait || wait <= *op.longest_wait) return;
  const auto orders = chain.orders();
  const bool told = std::ranges::any_of(
      orders, [&](const std::string& id) { return planned.plans.at(id).warns("load-waits-too-long"); });
  if (!told)
    out.push_back({"further load", fmt::format("{}: waits {} min, at most {}", text_of(planned, chain, doing),
                                               wait.count(), op.longest_wait->count())});
}

/// One run of a chain after the other: a further load of the oven may stand behind a later step of the load before
/// it.
void check_one_after_other(const Planned& planned, const Chain& chain, Breaches& out) {
  for (std::size_t i = 1; i < chain.doings.size(); ++i) {
    const Doing& before = chain.doings.at(i - 1);
    const Doing& doing = chain.doings.at(i);
    const Operation& op = operation(planned, doing);
    const std::string text = text_of(planned, chain, doing);
    if (doing.run.at.from < before.run.at.to)
      out.push_back(
          {"order of operations", fmt::format("{}: before the end of {}", text, text_of(planned, chain, before))});
    const bool dries_again = op.planned == Work::drying;
    if (doing.step < before.step && !dries_again)
      out.push_back({"order of operations", fmt::format("{}: after {}", text, text_of(planned, chain, before))});
    if (doing.step > before.step) {
      check_wait("wait", planned, chain, doing, chain, before, out);
    } else if (doing.step == before.step) {
      check_further_load(planned, chain, doing, before, out);
    }
  }
}

/// An order's blanks that are through with `before` and stand at `step`, or in between.
int stand_between(const Planned& planned, const std::string& order, std::size_t before, std::size_t step) {
  return static_cast<int>(std::ranges::count_if(planned.ledger, [&](const auto& one) {
    const BlankSeen& blank = one.second;
    return blank.order == order && !blank.over && before < blank.next && blank.next <= step &&
           is_done_to(planned.shop, step, blank.witness);
  }));
}

int blanks_of(const Planned& planned, const std::string& order, const Doing& doing) {
  return doing.run.blanks > 0 ? doing.run.blanks : open_of(planned, order, doing.step).blanks;
}

using Doings = std::vector<const Doing*>;

int blanks_of(const Planned& planned, const std::string& order, const Doings& doings) {
  const auto add = [&](int all, const Doing* doing) { return all + blanks_of(planned, order, *doing); };
  return std::accumulate(doings.begin(), doings.end(), 0, add);
}

/// However groups belong together: as many blanks as have ended a step, but for those that go no further, have begun
/// the next one within its longest wait. What was over when the plan was made may wait too long already.
void check_waits_of_groups(const Planned& planned, const Chain& chain, const Doings& ended, const Doings& next,
                           int stay, Breaches& out) {
  const Operation& op = operation(planned, *next.front());
  if (!op.longest_wait || is_told(planned, chain.name, op)) return;
  int gone = -stay;
  for (const Doing* before : ended) {
    if (was_over(planned, chain, *before)) continue;
    gone += blanks_of(planned, chain.name, *before);
    Doings in_time = next;
    std::erase_if(in_time, [&](const Doing* one) { return one->run.at.from - before->run.at.to > *op.longest_wait; });
    const int begun = blanks_of(planned, chain.name, in_time);
    if (begun < gone)
      out.push_back(
          {before->run.begun ? behind_what_goes_on : "wait",
           fmt::format("{} after {}: {} blanks within {} min, of {}", text_of(planned, chain, *next.front()),
                       text_of(planned, chain, *before), begun, op.longest_wait->count(), gone)});
  }
}

/// Groups of an order's blanks go on by themselves, and its runs do not tell of which they are. However they belong
/// together: no more blanks can have begun a step than have ended the step before by then, or were through with it
/// already.
void check_groups(const Planned& planned, const Chain& chain, Breaches& out) {
  std::map<std::size_t, Doings> steps;
  for (const Doing& doing : chain.doings) {
    if (!operation(planned, doing).only_witnesses) steps[doing.step].push_back(&doing);
  }
  for (auto step = steps.begin(); step != steps.end(); ++step) {
    if (step == steps.begin() || !follows(planned, chain.name, std::prev(step)->first, step->first)) continue;
    Doings ended = std::prev(step)->second;
    std::ranges::sort(ended, {}, [](const Doing* doing) { return doing->run.at.to; });
    const int before = stand_between(planned, chain.name, std::prev(step)->first, step->first);
    int begun = 0;
    for (const Doing* doing : step->second) {
      begun += blanks_of(planned, chain.name, *doing);
      int there = before;
      const Doing* last = nullptr;
      for (const Doing* one : ended) {
        if (there < begun) last = one;
        there += blanks_of(planned, chain.name, *one);
      }
      if (last != nullptr && doing->run.at.from < last->run.at.to)
        out.push_back({"order of operations",
                       fmt::format("{} after {}", text_of(planned, chain, *doing), text_of(planned, chain, *last))});
    }
    const int stay = std::max(0, before + blanks_of(planned, chain.name, ended) - begun);
    check_waits_of_groups(planned, chain, ended, step->second, stay, out);
  }
}

/// Do any of the order's blanks go through this that go on with a later step? Witnesses may be over with the cure,
/// and pieces are not cut open.
bool goes_through(const Planned& planned, const std::string& order, const Chain& chain, const Doing& doing,
                  std::size_t step) {
  if (!doing.blanks.contains(order)) return false;
  const Plan& plan = planned.plans.at(order);
  const bool with_pieces = is_done_to(planned.shop, step, false);
  const bool with_witnesses = is_done_to(planned.shop, step, true);
  const auto any_in = [&](const std::vector<std::string>& blanks) {
    const auto is_in = [&](const std::string& id) { return std::ranges::find(blanks, id) != blanks.end(); };
    return (with_pieces && std::ranges::any_of(plan.pieces, is_in)) ||
           (with_witnesses && std::ranges::any_of(plan.witnesses, is_in));
  };
  if (doing.run.load) {
    return std::ranges::any_of(
        plan.loads, [&](const PlannedLoad& load) { return load.number == *doing.run.load && any_in(load.blanks); });
  }
  if (chain.kind == Chain::Kind::bath) {
    return std::ranges::any_of(
        plan.baths, [&](const PlannedBath& bath) { return bath.number == chain.bath && any_in(bath.blanks); });
  }
  return std::ranges::any_of(planned.ledger, [&](const auto& one) {
    const BlankSeen& blank = one.second;
    const bool is_in_it = blank.bath == chain.name || (blank.going_on && blank.going_on->name == chain.name);
    return blank.order == order && (blank.witness ? with_witnesses : with_pieces) && !blank.over && is_in_it;
  });
}

/// What an order's blanks that go on with a step went through together with others, by its last end.
const Doing* last_before(const Planned& planned, const std::vector<Chain>& chains, const std::string& order,
                         std::size_t step, const Chain** of) {
  const Doing* last = nullptr;
  for (const Chain& chain : chains) {
    if (chain.kind == Chain::Kind::order) continue;
    for (const Doing& doing : chain.doings) {
      if (!goes_through(planned, order, chain, doing, step) ||
          (last != nullptr && doing.run.at.to <= last->run.at.to))
        continue;
      last = &doing;
      *of = &chain;
    }
  }
  return last;
}

/// An order goes on by itself when its last bath is through, and no later than what comes next may wait.
void check_going_on(const Planned& planned, const std::vector<Chain>& chains, const Chain& own, Breaches& out) {
  std::size_t shared = 0;
  for (const Chain& chain : chains) {
    for (const Doing& doing : chain.doings) {
      if (chain.kind != Chain::Kind::order && doing.blanks.contains(own.name)) shared = std::max(shared, doing.step);
    }
  }
  const Doing* first = nullptr;  // of those that come from there: the last group's
  for (const Doing& doing : own.doings) {
    if (doing.step <= shared || (first != nullptr && doing.step != first->step)) continue;
    first = &doing;
  }
  if (first == nullptr || first->run.begun) return;
  const Chain* of = nullptr;
  const Doing* before = last_before(planned, chains, own.name, first->step, &of);
  if (before == nullptr) return;
  if (first->run.at.from < before->run.at.to)
    out.push_back({"order of operations",
                   fmt::format("{} after {}", text_of(planned, own, *first), text_of(planned, *of, *before))});
  if (follows(planned, own.name, before->step, first->step))
    check_wait(before->run.begun ? behind_what_goes_on : "wait behind the cure", planned, own, *first, *of, *before,
               out);
}

/// The run in which a blank is, of those that go on.
struct GoesOnIn {
  const Chain* chain = nullptr;
  const Doing* run = nullptr;
};
GoesOnIn run_of(const std::vector<Chain>& chains, const BlankSeen& blank) {
  for (const Chain& chain : chains) {
    for (const Doing& doing : chain.doings) {
      if (doing.run.begun && doing.step == blank.going_on->step && doing.run.at.from == blank.going_on->since &&
          doing.run.name == blank.going_on->name && doing.blanks.contains(blank.order))
        return {&chain, &doing};
    }
  }
  return {};
}

/// What is done to it before it is with the others again: that run, or what comes right behind it by itself.
const Doing* last_apart(const GoesOnIn& in) {
  const Doing* last = in.run;
  for (const Doing& doing : in.chain->doings) {
    if (doing.step == last->step + 1 && !doing.run.begun && doing.run.at.from >= last->run.at.to) last = &doing;
  }
  return last;
}

/// Blanks that something goes on with join their bath when that is over, and no later than they may wait.
void check_joins(const Planned& planned, const std::vector<Chain>& chains, Breaches& out) {
  std::set<std::pair<const Doing*, const Doing*>> seen;
  for (const auto& [id, blank] : planned.ledger) {
    if (blank.over || !blank.going_on || !planned.plans.contains(blank.order)) continue;
    const GoesOnIn in = run_of(chains, blank);
    if (in.run == nullptr) continue;
    const Doing* before = last_apart(in);
    for (const PlannedBath& bath : planned.plans.at(blank.order).baths) {
      if (std::ranges::find(bath.blanks, id) == bath.blanks.end()) continue;
      const auto chain = std::ranges::find_if(
          chains, [&](const Chain& one) { return one.kind == Chain::Kind::bath && one.bath == bath.number; });
      if (chain == chains.end()) continue;
      const auto next =
          std::ranges::find_if(chain->doings, [&](const Doing& doing) { return doing.step > before->step; });
      if (next == chain->doings.end() || !seen.insert({before, &*next}).second) continue;
      if (next->run.at.from < before->run.at.to)
        out.push_back({"order of operations", fmt::format("{}: before the end of {}", text_of(planned, *chain, *next),
                                                          text_of(planned, *in.chain, *before))});
      if (follows(planned, blank.order, before->step, next->step) &&
          !is_told(planned, blank.order, operation(planned, *next)))
        check_wait(behind_what_goes_on, planned, *chain, *next, *in.chain, *before, out);
    }
  }
}

}  // namespace

void check_order(const Planned& planned, const std::vector<Chain>& chains, Breaches& out) {
  for (const Chain& chain : chains) {
    if (chain.kind != Chain::Kind::order) {
      check_one_after_other(planned, chain, out);
      continue;
    }
    check_groups(planned, chain, out);
    check_going_on(planned, chains, chain, out);
  }
  check_joins(planned, chains, out);
}

}  // namespace calendar_rules
