#include "hours.h"

#include <algorithm>
#include <chrono>

namespace calendar_rules {
namespace {

using std::chrono::days;

std::vector<Stretch> stretches_of(const Hours& hours, Date day) {
  const bool off = std::ranges::find(hours.days_off, day) != hours.days_off.end();
  return off ? std::vector<Stretch>{} : hours.week.at(std::chrono::weekday{day}.iso_encoding() - 1);
}

/// An hour by the clock is as long as it really is, also when the clock is changed in it.
std::vector<Span> stretches(const Hours& hours, const Zone& zone, Instant around) {
  std::vector<Span> all;
  constexpr days planned_ahead{3 * 365};
  const Date first = zone.date_of(around) - days{40};
  for (Date day = first; day < first + planned_ahead + days{90}; day += days{1}) {
    for (const Stretch& one : stretches_of(hours, day))
      all.push_back({zone.at_clock(day, one.from), zone.at_clock(day, one.to)});
  }
  return joined(std::move(all));
}

/// Is somebody named by any operation?
bool works(const Shop& shop, const std::string& person) {
  return std::ranges::any_of(shop.routing, [&](const Operation& op) {
    return op.who == person || std::ranges::find(op.also, person) != op.also.end();
  });
}

}  // namespace

WorkingHours::WorkingHours(const Shop& shop, const Zone& zone)
    : hours_{shop.hours}, usual_{stretches(shop.hours, zone, shop.at)}, attended_{usual_}, zone_{zone} {
  std::vector<Span> anybody;
  for (const Person& person : shop.people) {
    std::vector<Span> away;
    for (const Outage& one : person.away) away.push_back(one.at);
    Hours hours = person.hours.value_or(shop.hours);
    hours.days_off.insert(hours.days_off.end(), shop.hours.days_off.begin(), shop.hours.days_off.end());
    const std::vector<Span>& own = own_[person.name] = without(stretches(hours, zone, shop.at), away);
    if (works(shop, person.name)) anybody.insert(anybody.end(), own.begin(), own.end());
  }
  if (!shop.people.empty()) attended_ = joined(std::move(anybody));
}

const std::vector<Span>& WorkingHours::of(const std::string& person) const {
  const auto found = own_.find(person);
  return found == own_.end() ? usual_ : found->second;
}

Instant WorkingHours::end_of_work(Date day) const {
  while (stretches_of(hours_, day).empty()) day -= days{1};
  return zone_.at_clock(day, stretches_of(hours_, day).back().to);
}

bool lies_in(const std::vector<Span>& stretches, const Span& span) {
  return std::ranges::any_of(stretches, [&](const Span& one) { return one.from <= span.from && span.to <= one.to; });
}

}  // namespace calendar_rules
