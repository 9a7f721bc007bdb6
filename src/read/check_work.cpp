#include <fmt/format.h>

#include <algorithm>
#include <map>
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
  if (op.turnaround && op.hands_on.value == HandsOnWhen::throughout) no_effect(op.hands_on.at, "hands_on");
  if (op.most_a_day && (op.turnaround || op.planned)) no_effect(op.most_a_day->at, "most_a_day");
  if (op.least_part.origin != Origin::standard && op.hands_on.value != HandsOnWhen::throughout)
    no_effect(op.least_part.at, "least_part");
}

void check_day(const std::vector<Given<HoursOfWork>>& day, Diagnostics& out) {
  const auto clock = [](std::chrono::minutes m) {
    return fmt::format("{:02}:{:02}", m.count() / 60, m.count() % 60);
  };
  for (std::size_t i = 1; i < day.size(); ++i) {
    const HoursOfWork &before = day.at(i - 1).value, &own = day.at(i).value;
    if (own.from >= before.to) continue;
    const auto way_on = own.to <= before.from ? say(says::earlier_first)
                        : own.to > before.to
                            ? say(says::as_it_is, fmt::format("\"{}-{}\"", clock(before.to), clock(own.to)))
                            : say(says::leave_stretch_out);
    out.error(Problem::bad_hours, day.at(i).at, says::stretches_overlap)
        .label(day.at(i - 1).at, says::the_one_before)
        .hint(way_on);
  }
}

/// `person`: whose own hours they are; null where they are the shop's.
void check_week(const WeekFacts& week, const Place& whose, const PersonFacts* person, Diagnostics& out) {
  bool any = false;
  for (const auto* day :
       {&week.monday, &week.tuesday, &week.wednesday, &week.thursday, &week.friday, &week.saturday, &week.sunday}) {
    check_day(*day, out);
    any = any || !day->empty();
  }
  if (any) return;
  out.error(Problem::bad_hours, week.place.source ? week.place : whose, says::no_hours_at_all)
      .hint(person == nullptr ? say(says::such_as_a_day) : say(says::such_as_own_hours, person->name.value));
}

/// As it is written: 2027-05-03, or "2027-05-03 13:00".
std::string written(Date day, std::chrono::minutes clock) {
  const auto days = std::chrono::floor<std::chrono::days>(clock);
  const auto left = (clock - days).count();
  return fmt::format("\"{} {:02}:{:02}\"", text(Date{std::chrono::sys_days{day} + days}), left / 60, left % 60);
}
std::string written(const DayOrTime& given) {
  return given.clock ? written(given.day, *given.clock) : text(given.day);
}

/// The nearest time of a day, that way, that the clock shows once.
std::chrono::minutes shown_once(const Zone& zone, Date day, std::chrono::minutes clock, std::chrono::minutes step) {
  while (!instant_shown(zone, day, clock)) clock += step;
  return clock;
}

/// The moment that a day or a time of it means; says so where the clock shows that time never or twice.
std::optional<Instant> moment_of(const Given<DayOrTime>& given, std::chrono::minutes whole_day, const Zone& zone,
                                 Diagnostics& out) {
  const auto& [day, clock] = given.value;
  if (!clock) return instant_of(zone, day, whole_day);
  const auto moment = instant_shown(zone, day, *clock);
  if (moment) return *moment;
  out.error(Problem::bad_date, given.at, says::as_it_is, moment.error().message)
      .hint(says::either_of_two, written(day, shown_once(zone, day, *clock, std::chrono::minutes{-1})),
            written(day, shown_once(zone, day, *clock, std::chrono::minutes{1})));
  return std::nullopt;
}

void check_spans(const std::vector<SpanFacts>& spans, const Zone& zone, Diagnostics& out) {
  for (const SpanFacts& span : spans) {
    const auto from = moment_of(span.from, std::chrono::minutes{0}, zone, out);
    const auto to = moment_of(span.to, std::chrono::days{1}, zone, out);
    if (!from || !to || *from < *to) continue;
    constexpr Keyword begin{"from"}, end{"to"};
    auto& said = out.error(Problem::bad_date, span.to.at, says::ends_before_it_begins)
                     .label(span.from.at, says::the_beginning);
    if (*from == *to) {
      said.hint(says::key_is, end, text(span.to.value.day));
    } else {
      said.hint(says::two_keys_are, begin, written(span.to.value), end, written(span.from.value));
    }
  }
}

/// Each name stands once.
template <class Named>
void check_names(const std::vector<Named>& all, Diagnostics& out) {
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto first = std::ranges::find(all, all.at(i).name.value, [](const Named& n) { return n.name.value; });
    if (first == all.begin() + static_cast<std::ptrdiff_t>(i)) continue;
    out.error(Problem::keys_disagree, all.at(i).name.at, says::name_stands_twice, all.at(i).name.value)
        .label(first->name.at, says::the_one_before)
        .hint(says::give_another_name, all.at(i).name.value);
  }
}

/// Says once of each name that is none of the shop's where it stands.
template <class Named>
void check_known(const std::vector<Given<std::string>>& named, const std::vector<Named>& all, std::string_view table,
                 Diagnostics& out) {
  std::vector<std::string> known;
  for (const Named& one : all) known.push_back(one.name.value);
  std::map<std::string, Diagnostic*> told;
  for (const auto& [name, origin, at, source] : named) {
    if (std::ranges::find(known, name) != known.end()) continue;
    auto& said = told[name];
    if (said != nullptr) {
      said->label(at, says::here_too);
      continue;
    }
    said = &out.error(Problem::unknown_name, at, says::not_among, name, Keyword{table});
    const auto meant = nearest_names(name, known, 1);
    if (meant.empty()) {
      said->hint(known.empty()
                     ? say(says::add_named, Keyword{table}, name)
                     : say(says::add_named_or, Keyword{table}, name, listed(known, says::quoted, says::either)));
    } else {
      said->hint(says::as_it_is, "\"" + meant.front() + "\"");
    }
  }
}

/// Who and what operations name is there.
void check_names_of_routing(const Shop& shop, Diagnostics& out) {
  std::vector<Given<std::string>> people, machines;
  for (const OperationFacts& op : shop.routing) {
    people.push_back(op.who);
    people.insert(people.end(), op.also.begin(), op.also.end());
    if (op.machine) machines.push_back(*op.machine);
  }
  if (!shop.people.empty()) check_known(people, shop.people, "people", out);
  check_known(machines, shop.machines, "machines", out);
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
  check_week(shop.hours, shop.place, nullptr, out);
  check_names(shop.people, out);
  check_names(shop.machines, out);
  for (const PersonFacts& person : shop.people) {
    if (person.hours) check_week(*person.hours, person.place, &person, out);
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
  }
  check_names_of_routing(shop, out);
  check_witnesses(shop.routing, out);
}

}  // namespace blankwright
