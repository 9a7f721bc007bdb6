#include "plan/shop/not_planned.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <utility>

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

bool can_be_placed(std::vector<Operation> ops, const ShopTime& time) {
  return ShopCalendar{time}.place(std::move(ops), time.at, {}).has_value();
}

/// What it says and what is done about it, where those who do an operation are not there for it.
struct WayOut {
  Sentence<0> why;
  Saying hint;
};

/// Looks for what would make it possible by trying it.
class Trials {
 public:
  Trials(const OperationFacts& facts, const std::vector<Operation>& ops, const Obstacle& obstacle,
         const ShopInTime& in)
      : facts_{facts},
        ops_{ops.begin(), ops.begin() + static_cast<std::ptrdiff_t>(obstacle.operation) + 1},
        why_{obstacle.why},
        in_{in} {}

  WayOut way_out() const {
    switch (why_) {
      case Impossible::no_working_time:
        return as_it_is(say(says::hours_or_fewer_absences));
      case Impossible::longest_below_length:
        return as_it_is(say(says::most_that_does, printed(op().length)));
      case Impossible::hands_on_above_length:
        return as_it_is(
            say(says::hands_on_that_does, printed(op().length / (op().hands_on == HandsOn::at_both_ends ? 2 : 1))));
      case Impossible::wait_cannot_be_met:
        return as_it_is(say(says::wait_that_does, printed(wait_that_would_do(ops_, ops_.size() - 1, in_.time))));
      case Impossible::hands_on_above_stretch:
      case Impossible::attended_above_stretch:
      case Impossible::no_start_fits:
      case Impossible::beyond_horizon:
        return by_trial();
    }
    BW_EXPECT(false);
    return as_it_is({});
  }

 private:
  const Operation& op() const { return ops_.back(); }
  WayOut as_it_is(Saying hint) const { return {reason(why_), std::move(hint)}; }

  /// Its own time would do, if only they were there.
  WayOut by_trial() const {
    if (does(without_absences())) return {says::nobody_for_it, say(says::fewer_absences, who_does(facts_))};
    if (op().in_a_day) return as_it_is(pieces_of_a_day());
    if (in_.time.outages.contains(op().resource)) return as_it_is(say(says::shorter_outage, op().resource));
    if (why_ == Impossible::attended_above_stretch) return as_it_is(say(lets_run_alone(facts_)));
    if (const auto part = part_that_does()) return as_it_is(say(says::part_that_does, printed(*part)));
    if (why_ == Impossible::hands_on_above_stretch && op().hands_on != HandsOn::throughout)
      return as_it_is(say(says::hands_on_or_hours, printed(longest_of_hands())));
    if (!op().may_run_long && does([](Operation& one) { one.may_run_long = true; }))
      return as_it_is(say(says::may_run_long));
    if (does(with_the_shops_hours())) return {says::nobody_for_it, say(says::longer_hours_of, who_does(facts_))};
    if (why_ == Impossible::beyond_horizon) return as_it_is(say(says::fewer_pieces));
    return as_it_is(say(says::longer_hours_of, who_does(facts_)));
  }

  bool does(const ShopTime& time) const { return can_be_placed(ops_, time); }
  bool does(const std::function<void(Operation&)>& change) const {
    auto ops = ops_;
    change(ops.back());
    return can_be_placed(std::move(ops), in_.time);
  }

  ShopTime without_absences() const {
    Shop shop = in_.shop;
    for (PersonFacts& person : shop.people) person.away.clear();
    return shop_time(shop, in_.time.at);
  }
  ShopTime with_the_shops_hours() const {
    Shop shop = in_.shop;
    for (PersonFacts& person : shop.people) person.hours.reset();
    return shop_time(shop, in_.time.at);
  }

  /// The longest unbroken stretch that one of those who do it works.
  Duration longest_of_hands() const {
    std::chrono::minutes longest{0};
    for (const Worker& hand : op().hands) {
      const auto own = in_.time.people.find(hand.name);
      longest = std::max(longest, longest_stretch(own == in_.time.people.end() ? in_.time.calendar : own->second));
    }
    return duration_of(longest);
  }

  /// The longest least part with which it could be planned; none where that is not what is in the way.
  std::optional<Duration> part_that_does() const {
    if (op().hands_on != HandsOn::throughout || op().least_part == Duration{}) return std::nullopt;
    const auto with_part = [&](int minutes) {
      return does([&](Operation& one) { one.least_part = minutes * minute; });
    };
    if (!with_part(0)) return std::nullopt;
    return largest_that(0, static_cast<int>(std::ceil(op().least_part / minute)), with_part) * minute;
  }

  Saying pieces_of_a_day() const {
    const Duration per_piece = facts_.per_piece ? facts_.per_piece->value : Duration{};
    const auto fits_a_day = [&](int pieces) {
      Operation some = op();
      some.length = some.length - (some.pieces - pieces) * per_piece;
      some.pieces = pieces;
      some.longest_wait.reset();
      return can_be_placed({std::move(some)}, in_.time);
    };
    const int most = fits_a_day(1) ? largest_that(1, op().pieces, fits_a_day) : 0;
    return most > 0 ? say(says::most_a_day_that_does, most) : say(says::no_most_a_day, facts_.name.value);
  }

  const OperationFacts& facts_;
  std::vector<Operation> ops_;  ///< up to what stands in the way
  Impossible why_;
  const ShopInTime& in_;
};

}  // namespace

void say_not_planned(Diagnostics& said, const OrderToMake& order, const OperationFacts& facts,
                     const std::vector<Operation>& ops, const Obstacle& obstacle, const ShopInTime& in) {
  const WayOut way = Trials{facts, ops, obstacle, in}.way_out();
  said.error(Problem::schedule_impossible, facts.place, says::operation_not_planned, facts.name.value,
             printed(ops.at(obstacle.operation).length), order.pieces + order.witnesses, say(way.why))
      .label(order.quantity_at, says::the_order)
      .hint(way.hint);
}

}  // namespace blankwright
