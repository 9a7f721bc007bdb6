#include "plan/shop/shop_time.h"

#include <algorithm>
#include <utility>

namespace blankwright {
namespace {

std::vector<WorkStretch> stretches(const std::vector<Given<HoursOfWork>>& hours) {
  std::vector<WorkStretch> out;
  for (const auto& h : hours) out.push_back({h.value.from, h.value.to});
  return out;
}

WorkingTime working_time(const WeekFacts& w, const Zone& zone) {
  WorkingTime out{zone,
                  {stretches(w.monday), stretches(w.tuesday), stretches(w.wednesday), stretches(w.thursday),
                   stretches(w.friday), stretches(w.saturday), stretches(w.sunday)},
                  {}};
  for (const auto& day : w.days_off) out.days_off.push_back(day.value);
  return out;
}

std::vector<Interval> intervals_of(const std::vector<SpanFacts>& spans, const Zone& zone) {
  std::vector<Interval> out;
  for (const SpanFacts& span : spans) {
    const Span s = span_of(span, zone);
    out.push_back({s.from, s.to});
  }
  return joined(std::move(out));
}

/// The shop's days off are theirs too.
WorkCalendar time_of(const PersonFacts& person, const WorkingTime& shop, Instant at) {
  WorkingTime working = person.hours ? working_time(*person.hours, shop.zone) : shop;
  if (person.hours) working.days_off.insert(working.days_off.end(), shop.days_off.begin(), shop.days_off.end());
  return WorkCalendar{working, at}.without(intervals_of(person.away, shop.zone));
}

/// Somebody is in the shop when one of those works whom its operations name.
WorkCalendar when_attended(const Shop& shop, const ShopTime& time) {
  std::vector<Interval> all;
  for (const auto& [name, hours] : time.people) {
    const bool is_named =
        std::ranges::any_of(shop.routing, [&](const OperationFacts& op) { return can_do(name, op); });
    if (is_named) all.insert(all.end(), hours.stretches().begin(), hours.stretches().end());
  }
  const Interval all_time[] = {time.calendar.covered()};
  return time.people.empty() ? time.calendar : time.calendar.without(all_time).with(all);
}

}  // namespace

ShopTime shop_time(const Shop& shop, Instant at) {
  const Zone& zone = shop.zone.value;
  WorkingTime working = working_time(shop.hours, zone);
  WorkCalendar calendar{working, at};
  ShopTime time{at, std::move(working), std::move(calendar), {}, {}};
  for (const PersonFacts& person : shop.people)
    time.people.emplace(person.name.value, time_of(person, time.working, at));
  time.calendar = when_attended(shop, time);
  const auto note = [&](const auto& all) {
    for (const auto& one : all) {
      if (!one.outages.empty()) time.outages[one.name.value] = intervals_of(one.outages, zone);
    }
  };
  note(shop.vessels);
  note(shop.ovens);
  note(shop.machines);
  return time;
}

}  // namespace blankwright
