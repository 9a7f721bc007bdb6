#include "plan/shop/not_planned.h"

#include <cmath>

#include "diagnose/failure.h"
#include "diagnose/problem.h"
#include "diagnose/says_facts.h"
#include "diagnose/says_shop.h"
#include "measure/elapsed.h"
#include "measure/largest_that.h"
#include "measure/quantity_text.h"

namespace blankwright {
namespace {

/// What lets an operation run while nobody is there; where it says itself that it may not, that comes first.
Sentence<0> lets_run_alone(const OperationFacts& facts) {
  const bool refused = facts.unattended.origin != Origin::standard && !facts.unattended.value;
  if (facts.planned && !refused) {
    if (facts.planned->value == PlannedWork::drying) return says::dry_unattended;
    if (facts.planned->value == PlannedWork::cure) return says::cure_unattended;
    if (facts.planned->value == PlannedWork::vacuum) return says::pump_unattended;
  }
  return says::run_unattended;
}

/// The shortest wait that would do: nothing else is in the way.
Duration wait_that_would_do(std::vector<Operation> ops, std::size_t at, const ShopTime& time) {
  ops.resize(at + 1);
  const ShopCalendar calendar{time};
  const auto planned_within = [&](std::optional<Duration> wait) {
    ops.back().longest_wait = wait;
    return ShopCalendar{calendar}.place(ops, time.at, {});
  };
  const auto planned = planned_within({});
  BW_EXPECT(at > 0 && planned.has_value());
  const Duration enough = between(planned->operations.at(at - 1).end, planned->operations.at(at).start);
  const auto too_short = [&](int minutes) { return !planned_within(minutes * minute); };
  return (largest_that(0, static_cast<int>(std::ceil(enough / minute)), too_short) + 1) * minute;
}

Saying room_for(const OperationFacts& facts, const Operation& op, const ShopTime& time) {
  if (time.outages.contains(op.resource)) return say(says::shorter_outage, op.resource);
  if (op.in_a_day) return say(says::fewer_a_day, facts.name.value);
  return say(says::may_run_long);
}

Saying way_out(const OperationFacts& facts, const std::vector<Operation>& ops, const Obstacle& obstacle,
               const ShopTime& time) {
  const Operation& op = ops.at(obstacle.operation);
  switch (obstacle.why) {
    case Impossible::no_working_time:
      return say(says::hours_or_fewer_absences);
    case Impossible::longest_below_length:
      return say(says::most_that_does, printed(op.length));
    case Impossible::hands_on_above_length:
      return say(says::hands_on_that_does, printed(op.length / (op.hands_on == HandsOn::at_both_ends ? 2 : 1)));
    case Impossible::hands_on_above_stretch:
      return say(op.hands_on == HandsOn::throughout ? says::part_that_does : says::hands_on_or_hours,
                 printed(duration_of(longest_stretch(time.calendar))));
    case Impossible::attended_above_stretch:
      return say(lets_run_alone(facts));
    case Impossible::no_start_fits:
      return room_for(facts, op, time);
    case Impossible::wait_cannot_be_met:
      return say(says::wait_that_does, printed(wait_that_would_do(ops, obstacle.operation, time)));
    case Impossible::beyond_horizon:
      return say(says::fewer_pieces);
  }
  BW_EXPECT(false);
  return {};
}

}  // namespace

void say_not_planned(Diagnostics& said, const OrderToMake& order, const OperationFacts& facts,
                     const std::vector<Operation>& ops, const Obstacle& obstacle, const ShopTime& time) {
  said.error(Problem::schedule_impossible, facts.place, says::operation_not_planned, facts.name.value,
             printed(ops.at(obstacle.operation).length), order.pieces + order.witnesses, say(reason(obstacle.why)))
      .label(order.quantity_at, says::the_order)
      .hint(way_out(facts, ops, obstacle, time));
}

}  // namespace blankwright
