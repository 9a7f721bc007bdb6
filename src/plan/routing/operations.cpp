#include "plan/routing/operations.h"

#include <algorithm>
#include <utility>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

constexpr Duration usual_hands_on = 10 * minute;  // at the start or end of an operation that runs by itself

HandsOn hands_on(HandsOnWhen when) {
  switch (when) {
    case HandsOnWhen::throughout:
      return HandsOn::throughout;
    case HandsOnWhen::start:
      return HandsOn::at_start;
    case HandsOnWhen::ends:
      return HandsOn::at_both_ends;
  }
  return HandsOn::throughout;
}

template <class T>
std::optional<T> bare(const std::optional<Given<T>>& given) {
  return given ? std::optional{given->value} : std::nullopt;
}

Duration planned_length(PlannedWork work, const PlannedDurations& planned) {
  switch (work) {
    case PlannedWork::drying:
      return planned.drying;
    case PlannedWork::cooling:
      return planned.cooling;
    case PlannedWork::vacuum:
      return planned.vacuum;
    case PlannedWork::soak:
      return planned.soak;
    case PlannedWork::cure:
      return planned.cure;
    case PlannedWork::glue_setting:
      return planned.glue_setting;
  }
  return {};
}

/// The vessel, oven or machine that it needs, and whether it runs while nobody is there.
void set_machine(Operation& op, const OperationFacts& facts, const OperationNeeds& needs) {
  if (facts.machine) op.resource = facts.machine->value;
  if (!facts.planned) return;
  const bool refused = facts.unattended.origin != Origin::standard && !facts.unattended.value;
  switch (facts.planned->value) {
    case PlannedWork::drying:
    case PlannedWork::cure:
      op.resource = needs.oven;
      op.unattended =
          (facts.planned->value == PlannedWork::drying ? needs.drying_alone : needs.cure_alone) && !refused;
      break;
    case PlannedWork::vacuum:
      op.resource = needs.vessel;
      op.unattended = needs.pump_alone && !refused;
      break;
    case PlannedWork::soak:
      op.resource = needs.vessel;
      op.unattended = !refused;  // at rest: nothing runs
      break;
    case PlannedWork::cooling:
    case PlannedWork::glue_setting:
      op.unattended = !refused;
      break;
  }
}

/// The blanks that an operation is done to.
struct Done {
  int pieces = 0;      ///< witnesses among them
  bool begun = false;  ///< to others already
  int day = 0;         ///< see Operation
};

/// A step of a routing, and those behind it that may wait only so long.
struct StepsTied {
  std::size_t first = 0, end = 0;
};

Duration planned_length(const OperationFacts& facts, const PlannedDurations& planned, const Done& done) {
  if (facts.planned) return planned_length(facts.planned->value, planned);
  if (facts.turnaround) return facts.turnaround->value;
  const bool setting_up = facts.hands_on.value == HandsOnWhen::throughout;  // once, not for each group of blanks
  return (done.begun && setting_up ? 0 * second : bare(facts.fixed).value_or(0 * second)) +
         done.pieces * bare(facts.per_piece).value_or(0 * second);
}

/// At the pace that was drawn for it.
Duration at_pace(const OperationFacts& facts, const PlannedDurations& planned, Duration length) {
  const auto pace = planned.pace.find(&facts);
  return pace == planned.pace.end() ? length : pace->second * length;
}

/// At the pace that was drawn for it, as far as its `most` lets it be longer.
Duration length_of(const OperationFacts& facts, const PlannedDurations& planned, const Done& done) {
  const Duration length = planned_length(facts, planned, done);
  const Duration drawn = at_pace(facts, planned, length);
  return facts.most ? std::min(drawn, std::max(length, facts.most->value)) : drawn;
}

/// The same operation in each further oven that takes it.
void set_further_ovens(Operation& op, const OperationFacts& facts, PlannedDurations planned,
                       const OperationNeeds& needs, const Done& done) {
  const bool dries = facts.is(PlannedWork::drying), cures = facts.is(PlannedWork::cure);
  if (!dries && !cures) return;
  for (const FurtherOven& oven : needs.further_ovens) {
    if (!(dries ? oven.takes_drying : oven.takes_cure)) continue;
    planned.cure = oven.cure;
    Operation there;
    set_machine(there, facts, {.oven = oven.name, .drying_alone = oven.drying_alone, .cure_alone = oven.cure_alone});
    op.further_ovens.push_back({oven.name, length_of(facts, planned, done), there.unattended});
  }
}

Operation operation(const OperationFacts& facts, const PlannedDurations& planned, const OperationNeeds& needs,
                    const Done& done) {
  Operation op;
  op.name = facts.name.value;
  op.hands.push_back({facts.who.value});
  for (const auto& other : facts.also) op.hands.push_back({other.value});
  op.pieces = done.pieces;
  op.length = length_of(facts, planned, done);
  op.per_piece = at_pace(facts, planned, bare(facts.per_piece).value_or(0 * second));
  op.hands_on = hands_on(facts.hands_on.value);
  op.hands_on_at_start = bare(facts.hands_on_time).value_or(std::min(usual_hands_on, op.length / 2));
  op.hands_on_at_end = op.hands_on_at_start;
  op.unattended = facts.unattended.value || facts.turnaround;
  op.may_run_long = facts.may_run_long.value || facts.turnaround;
  op.least_part = facts.least_part.value;
  op.longest = bare(facts.most);
  op.longest_wait = bare(facts.longest_wait);
  set_machine(op, facts, needs);
  set_further_ovens(op, facts, planned, needs, done);
  return op;
}

/// A soak lasts its share of the vacuum before it, however long that is in the end.
void set_share(std::vector<Operation>& ops, std::span<const OperationFacts* const> routing,
               const PlannedDurations& planned) {
  const Operation& soak = ops.back();
  if (planned.soak_share <= 0 || !routing[soak.step]->is(PlannedWork::soak)) return;
  for (std::size_t i = 0; i + 1 < ops.size(); ++i) {
    if (!routing[ops.at(i).step]->is(PlannedWork::vacuum)) continue;
    ops.back().lasts = Operation::Share{i, planned.soak_share, planned.pump_down};
  }
}

/// Its blanks that are left, without those that are in the midst of it.
Done done_to(std::size_t step, const OperationFacts& facts, const OperationNeeds& needs, bool witnesses_go_on) {
  const bool alone = facts.only_witnesses.value;
  Done done{alone ? needs.witnesses : needs.pieces - (witnesses_go_on ? 0 : needs.witnesses)};
  for (const Further& some : needs.further) {
    if (some.next <= step) continue;
    const int gone = alone ? some.witnesses : some.pieces - (witnesses_go_on ? 0 : some.witnesses);
    done.pieces -= gone;
    done.begun = done.begun || gone > 0;
  }
  for (const PassedOver& some : needs.passed_over) {
    if (some.step == step)
      done.pieces -= alone ? some.witnesses : some.pieces - (witnesses_go_on ? 0 : some.witnesses);
  }
  for (const Running& run : needs.running) done.pieces -= run.step == step ? run.pieces : 0;
  return done;
}

/// What of a step runs already: nobody has to begin it, and whoever comes ends it.
void put_running(std::vector<Operation>& ops, std::span<const OperationFacts* const> routing, std::size_t step,
                 const PlannedDurations& planned, const OperationNeeds& needs) {
  for (const Running& run : needs.running) {
    if (run.step != step) continue;
    Operation& op = ops.emplace_back(operation(*routing[step], planned, needs, {run.pieces}));
    op.step = step;
    op.begun = run.begun;
    op.ends_from = run.ends_from;
    op.longest_wait.reset();
    op.hands_on_at_start = {};
    if (!run.resource.empty()) op.resource = run.resource;
    op.further_ovens.clear();
    set_share(ops, routing, planned);
  }
}

/// Done to no more pieces a day than may be: each day's by itself.
void put_batches(std::vector<Operation>& ops, std::span<const OperationFacts* const> routing, std::size_t step,
                 const PlannedDurations& planned, const OperationNeeds& needs, const Done& done) {
  const auto& most = routing[step]->most_a_day;
  int left = done.pieces;
  do {
    const int batch = most ? std::min(left, most->value) : left;
    Operation& op = ops.emplace_back(operation(*routing[step], planned, needs, {batch, done.begun}));
    op.step = step;
    if (most) {
      op.in_a_day = true;
      op.most_a_day = most->value;
      op.on_a_later_day = left < done.pieces;
      if (op.on_a_later_day) op.longest_wait.reset();
      op.day = done.day > 0 ? done.day : 1 + (done.pieces - left) / most->value;
    } else {
      op.day = done.day;
    }
    set_share(ops, routing, planned);
    left -= batch;
  } while (left > 0);
}

/// Of an operation of which a day has no more than some, each day's pieces go on with what may wait behind it only so
/// long before the next day's do; first those that stand between the two already.
void put_day_by_day(std::vector<Operation>& ops, std::span<const OperationFacts* const> routing, StepsTied steps,
                    const PlannedDurations& planned, const OperationNeeds& needs, bool witnesses_go_on) {
  const auto left_at = [&](std::size_t step) { return done_to(step, *routing[step], needs, witnesses_go_on); };
  for (std::size_t step = steps.first + 1; step < steps.end; ++step) put_running(ops, routing, step, planned, needs);
  const std::size_t group = ops.size();
  const Done all = left_at(steps.first);
  int day = 1;
  for (std::size_t step = steps.first + 1; step < steps.end; ++step) {
    const Done between = left_at(step);
    if (between.pieces <= all.pieces) continue;
    put_batches(ops, routing, step, planned, needs, {between.pieces - all.pieces, between.begun, day});
    ops.at(group).longest_wait.reset();
  }
  for (int left = all.pieces; left > 0;) {
    const int of_day = std::min(left, routing[steps.first]->most_a_day->value);
    ++day;
    for (std::size_t step = steps.first; step < steps.end; ++step) {
      const std::size_t begin = ops.size();
      put_batches(ops, routing, step, planned, needs, {of_day, left_at(step).begun, day});
      Operation& op = ops.at(begin);
      const std::span before = std::span{ops}.subspan(group, begin - group);
      op.on_a_later_day = op.most_a_day > 0 && std::ranges::find(before, step, &Operation::step) != before.end();
      if (op.on_a_later_day && step == steps.first) op.longest_wait.reset();
    }
    left -= of_day;
  }
}

/// Where a step takes several days, and what is behind it may wait only so long: the two.
std::optional<StepsTied> day_by_day(std::span<const OperationFacts* const> routing, std::size_t step,
                                    const Done& done) {
  const auto& most = routing[step]->most_a_day;
  if (!most || done.pieces <= most->value) return std::nullopt;
  const StepsTied steps{step, step + 1 + tied(routing.subspan(step + 1))};
  return steps.end > step + 1 ? std::optional{steps} : std::nullopt;
}

/// How many times it is done.
std::size_t loads_of(const OperationFacts& facts, const OperationNeeds& needs) {
  if (!facts.planned) return 1;
  const int loads = facts.is(PlannedWork::drying) ? needs.drying_loads
                    : facts.is(PlannedWork::cure) ? needs.cure_loads
                                                  : 1;
  BW_EXPECT(loads >= 1);
  return static_cast<std::size_t>(loads);
}

}  // namespace

bool applies(const OperationFacts& facts, const PlannedDurations& planned) {
  if (facts.only_witnesses.value && !planned.witnessed) return false;
  if (facts.only_treated.value && !planned.treated) return false;
  if (!facts.planned) return true;
  switch (facts.planned->value) {
    case PlannedWork::drying:
      return planned.drying > Duration{};
    case PlannedWork::cooling:
      return planned.cooling > Duration{};
    case PlannedWork::vacuum:
    case PlannedWork::soak:
    case PlannedWork::cure:
      return planned.treated;
    case PlannedWork::glue_setting:
      break;
  }
  return true;
}

std::vector<const OperationFacts*> routing_of(const PlannedDurations& planned, const Shop& shop) {
  std::vector<const OperationFacts*> routing;
  for (const OperationFacts& facts : shop.routing) {
    if (applies(facts, planned)) routing.push_back(&facts);
  }
  return routing;
}

bool witnesses_go_beyond(std::span<const OperationFacts* const> after_cure) {
  return std::ranges::any_of(after_cure, [](const OperationFacts* facts) { return facts->only_witnesses.value; });
}

std::size_t tied(std::span<const OperationFacts* const> following) {
  const auto is_tied = [](const OperationFacts* facts) {
    const bool in_a_place =
        facts->planned && !facts->is(PlannedWork::cooling) && !facts->is(PlannedWork::glue_setting);
    const bool follows = facts->longest_wait || facts->is(PlannedWork::cooling);
    return follows && !in_a_place && !facts->only_witnesses.value;
  };
  return static_cast<std::size_t>(std::ranges::find_if_not(following, is_tied) - following.begin());
}

int blanks_at(std::size_t step, const OperationNeeds& needs) {
  int left = needs.pieces;
  for (const Further& some : needs.further) left -= some.next > step ? some.pieces : 0;
  for (const PassedOver& some : needs.passed_over) left -= some.step == step ? some.pieces : 0;
  return left;
}

std::vector<Operation> operations(std::span<const OperationFacts* const> routing, const PlannedDurations& planned,
                                  const OperationNeeds& needs) {
  std::vector<Operation> out;
  bool witnesses_go_on = true;
  for (std::size_t first = 0; first < routing.size();) {
    const std::size_t loads = loads_of(*routing[first], needs);
    std::size_t end = first + 1;
    while (loads > 1 && end < routing.size() && routing[end]->is(PlannedWork::cooling)) ++end;
    put_running(out, routing, first, planned, needs);
    if (const auto steps = day_by_day(routing, first, done_to(first, *routing[first], needs, witnesses_go_on))) {
      put_day_by_day(out, routing, *steps, planned, needs, witnesses_go_on);
      first = steps->end;
      continue;
    }
    for (std::size_t load = 0; load < loads; ++load) {
      for (std::size_t step = first; step < end; ++step) {
        const Done done = done_to(step, *routing[step], needs, witnesses_go_on);
        if (done.pieces == 0 && (done.begun || needs.pieces > 0)) continue;
        put_batches(out, routing, step, planned, needs, done);
        // Behind what cools there is no wait to hold to; behind another load it is the wait for the oven.
        if (load > 0 && step == first && end > first + 1) out.back().longest_wait.reset();
      }
    }
    if (routing[first]->only_witnesses.value) witnesses_go_on = false;
    if (routing[first]->is(PlannedWork::cure) && !witnesses_go_beyond(routing.subspan(end))) witnesses_go_on = false;
    first = end;
  }
  for (const FreeFrom& some : needs.free_from) {
    const auto next = std::ranges::find_if(out, [&](const Operation& op) { return op.step >= some.step; });
    if (next != out.end()) next->earliest = std::max(next->earliest.value_or(some.at), some.at);
  }
  return out;
}

std::vector<std::string> further_ovens(std::span<const Operation> operations) {
  std::vector<std::string> ovens;
  for (const Operation& op : operations) {
    for (const InFurtherOven& oven : op.further_ovens) {
      if (std::ranges::find(ovens, oven.resource) == ovens.end()) ovens.push_back(oven.resource);
    }
  }
  return ovens;
}

std::vector<Operation> in_oven(const std::string& oven, std::vector<Operation> operations) {
  for (Operation& op : operations) {
    const auto there = std::ranges::find(op.further_ovens, oven, &InFurtherOven::resource);
    if (there == op.further_ovens.end()) continue;
    op.resource = there->resource;
    op.length = there->length;
    op.unattended = there->unattended;
  }
  return operations;
}

Duration hands_on_total(const Shop& shop, const PlannedDurations& planned, int pieces, int witnesses) {
  const auto routing = routing_of(planned, shop);
  Duration total{};
  for (const Operation& op : operations(routing, planned, {.pieces = pieces, .witnesses = witnesses})) {
    total = total + (op.hands_on == HandsOn::throughout     ? op.length
                     : op.hands_on == HandsOn::at_both_ends ? op.hands_on_at_start + op.hands_on_at_end
                                                            : op.hands_on_at_start);
  }
  return total;
}

}  // namespace blankwright
