#include "plan/operations.h"

#include <algorithm>
#include <span>

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

/// The vessel or oven that it needs, and whether that runs while nobody is there.
void set_machine(Operation& op, const OperationFacts& facts, const OperationNeeds& needs) {
  if (!facts.planned) return;
  const bool refused = facts.unattended.origin != Origin::standard && !facts.unattended.value;
  switch (facts.planned->value) {
    case PlannedWork::drying:
    case PlannedWork::cure:
      op.resource = needs.oven;
      op.unattended = needs.oven_alone && !refused;
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

Operation operation(const OperationFacts& facts, const PlannedDurations& planned, const OperationNeeds& needs) {
  Operation op;
  op.name = facts.name.value;
  op.who = facts.who.value;
  op.length = facts.planned ? planned_length(facts.planned->value, planned)
                            : bare(facts.fixed).value_or(0 * second) +
                                  needs.pieces * bare(facts.per_piece).value_or(0 * second);
  op.hands_on = hands_on(facts.hands_on.value);
  op.hands_on_at_start = bare(facts.hands_on_time).value_or(std::min(usual_hands_on, op.length / 2));
  op.hands_on_at_end = op.hands_on_at_start;
  op.unattended = facts.unattended.value;
  op.may_run_long = facts.may_run_long.value;
  op.longest = bare(facts.most);
  op.longest_wait = bare(facts.longest_wait);
  set_machine(op, facts, needs);
  return op;
}

/// How many times it is done.
std::size_t loads_of(const OperationFacts& facts, const OperationNeeds& needs) {
  if (!facts.planned) return 1;
  const int loads = facts.planned->value == PlannedWork::drying ? needs.drying_loads
                    : facts.planned->value == PlannedWork::cure ? needs.cure_loads
                                                                : 1;
  BW_EXPECT(loads >= 1);
  return static_cast<std::size_t>(loads);
}

}  // namespace

bool applies(const OperationFacts& facts, const PlannedDurations& planned) {
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

std::vector<Operation> runs_of(const OperationFacts& facts, const PlannedDurations& planned,
                               const OperationNeeds& needs) {
  std::vector<Operation> runs(loads_of(facts, needs), operation(facts, planned, needs));
  for (Operation& run : std::span{runs}.subspan(1)) {
    run.repeats = true;
    run.longest_wait.reset();
  }
  return runs;
}

Duration hands_on_total(const Shop& shop, const PlannedDurations& planned, int pieces) {
  Duration total{};
  for (const OperationFacts& facts : shop.routing) {
    if (!applies(facts, planned)) continue;
    const Operation op = operation(facts, planned, {.pieces = pieces});
    total = total + (op.hands_on == HandsOn::throughout     ? op.length
                     : op.hands_on == HandsOn::at_both_ends ? op.hands_on_at_start + op.hands_on_at_end
                                                            : op.hands_on_at_start);
  }
  return total;
}

}  // namespace blankwright
