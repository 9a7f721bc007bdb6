#include <fmt/format.h>

#include <algorithm>

#include "lengths.h"
#include "rules.h"

namespace calendar_rules {
namespace {

constexpr const char* behind_what_goes_on = "wait behind what goes on";

/// A wait for what was over when the plan was made may be too long already.
bool was_over(const Planned& planned, const Chain& chain, const Doing& doing) {
  return doing.run.begun && doing.run.at.from + least_length(planned, chain, doing, doing.run.blanks) <= planned.at;
}

/// `rule`: what it is called.
void check_wait(const char* rule, const Planned& planned, const Chain& chain, const Doing& doing,
                const Chain& chain_before, const Doing& before, Breaches& out) {
  const Operation& op = operation(planned, doing);
  if (!op.longest_wait || doing.run.begun || was_over(planned, chain_before, before)) return;
  const Minutes wait = doing.run.at.from - before.run.at.to;
  if (wait > *op.longest_wait)
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

bool witnesses_end_between(const Planned& planned, std::size_t before, std::size_t step) {
  return is_done_to(planned.shop, before, true) && !is_done_to(planned.shop, step, true);
}

/// Groups of an order's blanks go on by themselves, and its runs do not tell of which they are. However they belong
/// together: the n-th to begin a step cannot begin before the n-th has ended the step before, nor wait for it longer
/// than the n-th does.
void check_groups(const Planned& planned, const Chain& chain, Breaches& out) {
  std::map<std::size_t, std::vector<const Doing*>> steps;
  for (const Doing& doing : chain.doings) {
    if (!operation(planned, doing).only_witnesses) steps[doing.step].push_back(&doing);
  }
  for (auto step = steps.begin(); step != steps.end(); ++step) {
    if (step == steps.begin() || !follows(planned, chain.name, std::prev(step)->first, step->first)) continue;
    std::vector<const Doing*> ended = std::prev(step)->second;
    std::ranges::sort(ended, {}, [](const Doing* doing) { return doing->run.at.to; });
    const std::vector<const Doing*>& begun = step->second;
    if (begun.size() < ended.size()) {  // some of them go on together, or were witnesses, which are over
      if (!witnesses_end_between(planned, std::prev(step)->first, step->first) &&
          begun.back()->run.at.from < ended.back()->run.at.to)
        out.push_back({"order of operations", fmt::format("{} after {}", text_of(planned, chain, *begun.back()),
                                                          text_of(planned, chain, *ended.back()))});
      continue;
    }
    const std::size_t ahead = begun.size() - ended.size();
    for (std::size_t n = 0; n < ended.size(); ++n) {
      const Doing& doing = *begun.at(n + ahead);
      if (doing.run.at.from < ended.at(n)->run.at.to)
        out.push_back({"order of operations", fmt::format("{} after {}", text_of(planned, chain, doing),
                                                          text_of(planned, chain, *ended.at(n)))});
      if (ahead == 0)
        check_wait(ended.at(n)->run.begun ? behind_what_goes_on : "wait", planned, chain, doing, chain, *ended.at(n),
                   out);
    }
  }
}

bool has_piece(const Plan& plan, const std::vector<std::string>& blanks) {
  return std::ranges::any_of(plan.pieces,
                             [&](const std::string& id) { return std::ranges::find(blanks, id) != blanks.end(); });
}

/// Do any of the order's pieces go through this? Witnesses may be over with the cure.
bool goes_through(const Planned& planned, const std::string& order, const Chain& chain, const Doing& doing) {
  if (!doing.blanks.contains(order)) return false;
  const Plan& plan = planned.plans.at(order);
  if (doing.run.load) {
    return std::ranges::any_of(plan.loads, [&](const PlannedLoad& load) {
      return load.number == *doing.run.load && has_piece(plan, load.blanks);
    });
  }
  if (chain.kind == Chain::Kind::bath) {
    return std::ranges::any_of(plan.baths, [&](const PlannedBath& bath) {
      return bath.number == chain.bath && has_piece(plan, bath.blanks);
    });
  }
  return std::ranges::any_of(planned.ledger, [&](const auto& one) {
    const BlankSeen& blank = one.second;
    const bool is_in_it = blank.bath == chain.name || (blank.going_on && blank.going_on->name == chain.name);
    return blank.order == order && !blank.witness && !blank.over && is_in_it;
  });
}

/// What an order's blanks went through together with others, by its last end.
const Doing* last_before(const Planned& planned, const std::vector<Chain>& chains, const std::string& order,
                         const Chain** of) {
  const Doing* last = nullptr;
  for (const Chain& chain : chains) {
    if (chain.kind == Chain::Kind::order) continue;
    for (const Doing& doing : chain.doings) {
      if (!goes_through(planned, order, chain, doing) || (last != nullptr && doing.run.at.to <= last->run.at.to))
        continue;
      last = &doing;
      *of = &chain;
    }
  }
  return last;
}

/// An order goes on by itself when its last bath is through, and no later than what comes next may wait.
void check_going_on(const Planned& planned, const std::vector<Chain>& chains, const Chain& own, Breaches& out) {
  const Chain* of = nullptr;
  const Doing* before = last_before(planned, chains, own.name, &of);
  if (before == nullptr) return;
  const Doing* first = nullptr;  // of those that come from there: the last group's
  for (const Doing& doing : own.doings) {
    if (doing.step <= before->step || (first != nullptr && doing.step != first->step)) continue;
    first = &doing;
  }
  if (first == nullptr || first->run.begun) return;
  if (first->run.at.from < before->run.at.to)
    out.push_back({"order of operations",
                   fmt::format("{} after {}", text_of(planned, own, *first), text_of(planned, *of, *before))});
  if (follows(planned, own.name, before->step, first->step))
    check_wait(before->run.begun ? behind_what_goes_on : "wait behind the cure", planned, own, *first, *of, *before,
               out);
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
}

}  // namespace calendar_rules
