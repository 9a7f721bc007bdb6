#include <algorithm>
#include <string>

#include "diagnose/problem.h"
#include "diagnose/says_facts.h"
#include "diagnose/says_read.h"
#include "measure/nearest.h"
#include "read/shop.h"

namespace blankwright {
namespace {

/// It takes its time from one place: its own, the plan, or who does it outside.
void check_times(const OperationFacts& op, Diagnostics& out) {
  if (op.planned && (op.fixed || op.per_piece)) {
    out.error(Problem::keys_disagree, op.fixed ? op.fixed->at : op.per_piece->at, says::operation_with_two_times,
              op.name.value)
        .label(op.planned->at, says::from_the_plan)
        .hint(says::leave_one_out);
  }
  if (op.turnaround && (op.fixed || op.per_piece || op.planned)) {
    out.error(Problem::keys_disagree, op.turnaround->at, says::sent_out_with_time, op.name.value)
        .label(op.planned ? op.planned->at
               : op.fixed ? op.fixed->at
                          : op.per_piece->at,
               says::the_time_it_takes)
        .hint(says::leave_one_out);
  }
}

/// What one operation says has to agree with itself.
void check_operation(const OperationFacts& op, Diagnostics& out) {
  const bool by_the_clock = op.hands_on.value != HandsOnWhen::throughout;
  if (op.most && by_the_clock && !op.may_run_long.value) {
    out.error(Problem::keys_disagree, op.most->at, says::most_without_effect).hint(says::such_as_may_run_long);
  }
  if (op.hands_on_time && !by_the_clock) {
    out.error(Problem::keys_disagree, op.hands_on_time->at, says::hands_on_without_effect)
        .hint(says::such_as_hands_on);
  }
  if (!op.fixed && !op.per_piece && !op.planned && !op.turnaround) {
    out.error(Problem::missing_key, op.place, says::operation_without_time, op.name.value).hint(says::such_as_time);
  }
  check_times(op, out);
  if (op.most && op.fixed && op.most->value < op.fixed->value) {
    out.error(Problem::out_of_range, op.most->at, says::most_below_time).label(op.fixed->at, says::the_time_it_takes);
  }
}

/// Witnesses go through bath and oven with the others: what is done to them alone comes after.
void check_witnesses(const std::vector<OperationFacts>& routing, Diagnostics& out) {
  const OperationFacts* alone = nullptr;
  for (const OperationFacts& op : routing) {
    if (op.only_witnesses.value && alone == nullptr) alone = &op;
    if (alone == nullptr || !op.planned || op.planned->value == PlannedWork::glue_setting) continue;
    out.error(Problem::keys_disagree, alone->only_witnesses.at, says::witnesses_alone_before, alone->name.value,
              op.name.value)
        .label(op.planned->at, says::they_go_with_others);
    return;
  }
}

/// What is said of it has an effect.
void check_place(const OperationFacts& op, Diagnostics& out) {
  const auto no_effect = [&](const Place& at, std::string_view key) {
    out.error(Problem::keys_disagree, at, says::key_without_effect, Keyword{key}, op.name.value)
        .hint(says::leave_key_out, Keyword{key});
  };
  if (op.machine && (op.turnaround || (op.planned && op.planned->value != PlannedWork::glue_setting)))
    no_effect(op.machine->at, "machine");
  if (op.most_a_day && (op.turnaround || op.planned)) no_effect(op.most_a_day->at, "most_a_day");
  if (op.least_part.origin != Origin::standard && op.hands_on.value != HandsOnWhen::throughout)
    no_effect(op.least_part.at, "least_part");
}

void check_day(const std::vector<Given<HoursOfWork>>& day, Diagnostics& out) {
  for (std::size_t i = 1; i < day.size(); ++i) {
    if (day.at(i).value.from >= day.at(i - 1).value.to) continue;
    out.error(Problem::bad_hours, day.at(i).at, says::stretches_overlap)
        .label(day.at(i - 1).at, says::the_one_before);
  }
}

void check_week(const WeekFacts& week, const Place& whose, Diagnostics& out) {
  bool any = false;
  for (const auto* day :
       {&week.monday, &week.tuesday, &week.wednesday, &week.thursday, &week.friday, &week.saturday, &week.sunday}) {
    check_day(*day, out);
    any = any || !day->empty();
  }
  if (any) return;
  out.error(Problem::bad_hours, week.place.source ? week.place : whose, says::no_hours_at_all)
      .hint(says::such_as_a_day);
}

/// The moment that a day or a time of it means; says so where the clock shows that time never or twice.
std::optional<Instant> moment_of(const Given<DayOrTime>& given, std::chrono::minutes whole_day, const Zone& zone,
                                 Diagnostics& out) {
  const auto& [day, clock] = given.value;
  if (!clock) return instant_of(zone, day, whole_day);
  const auto moment = instant_shown(zone, day, *clock);
  if (moment) return *moment;
  out.error(Problem::bad_date, given.at, says::as_it_is, moment.error().message).hint(says::other_time_of_day);
  return std::nullopt;
}

void check_spans(const std::vector<SpanFacts>& spans, const Zone& zone, Diagnostics& out) {
  for (const SpanFacts& span : spans) {
    const auto from = moment_of(span.from, std::chrono::minutes{0}, zone, out);
    const auto to = moment_of(span.to, std::chrono::days{1}, zone, out);
    if (!from || !to || *from < *to) continue;
    out.error(Problem::bad_date, span.to.at, says::ends_before_it_begins).label(span.from.at, says::the_beginning);
  }
}

/// Each name stands once.
template <class Named>
void check_names(const std::vector<Named>& all, Diagnostics& out) {
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto first = std::ranges::find(all, all.at(i).name.value, [](const Named& n) { return n.name.value; });
    if (first == all.begin() + static_cast<std::ptrdiff_t>(i)) continue;
    out.error(Problem::keys_disagree, all.at(i).name.at, says::name_stands_twice, all.at(i).name.value)
        .label(first->name.at, says::the_one_before);
  }
}

template <class Named>
void check_known(const Given<std::string>& named, const std::vector<Named>& all, std::string_view table,
                 Diagnostics& out) {
  std::vector<std::string> known;
  for (const Named& one : all) known.push_back(one.name.value);
  if (std::ranges::find(known, named.value) != known.end()) return;
  const auto meant = nearest_names(named.value, known, 1);
  auto& said = out.error(Problem::unknown_name, named.at, says::not_among, named.value, Keyword{table});
  if (meant.empty()) {
    said.hint(says::add_named, Keyword{table}, named.value);
  } else {
    said.hint(says::as_it_is, "\"" + meant.front() + "\"");
  }
}

}  // namespace

bool can_do(const std::string& person, const OperationFacts& facts) {
  return facts.who.value == person ||
         std::ranges::any_of(facts.also, [&](const Given<std::string>& other) { return other.value == person; });
}

std::string who_does(const OperationFacts& facts) {
  std::string all = facts.who.value;
  for (const auto& other : facts.also) all += " / " + other.value;
  return all;
}

Span span_of(const SpanFacts& facts, const Zone& zone) {
  const auto& [first, from] = facts.from.value;
  const auto& [last, to] = facts.to.value;
  return {instant_of(zone, first, from.value_or(std::chrono::minutes{0})),
          instant_of(zone, last, to.value_or(std::chrono::days{1}))};
}

void check_work(Shop& shop, Diagnostics& out) {
  const Zone& zone = shop.zone.value;
  check_week(shop.hours, shop.place, out);
  check_names(shop.people, out);
  check_names(shop.machines, out);
  for (const PersonFacts& person : shop.people) {
    if (person.hours) check_week(*person.hours, person.place, out);
    check_spans(person.away, zone, out);
  }
  for (const MachineFacts& machine : shop.machines) check_spans(machine.outages, zone, out);
  for (const VesselFacts& vessel : shop.vessels) check_spans(vessel.outages, zone, out);
  for (const OvenFacts& oven : shop.ovens) check_spans(oven.outages, zone, out);
  for (OperationFacts& op : shop.routing) {
    if ((op.planned || op.turnaround) && op.hands_on.origin == Origin::standard) {
      op.hands_on = standard_value(HandsOnWhen::ends, "it is set going and taken out");
    }
    check_operation(op, out);
    check_place(op, out);
    if (!shop.people.empty()) {
      check_known(op.who, shop.people, "people", out);
      for (const auto& other : op.also) check_known(other, shop.people, "people", out);
    }
    if (op.machine) check_known(*op.machine, shop.machines, "machines", out);
  }
  check_witnesses(shop.routing, out);
}

}  // namespace blankwright
