#include "plan/shop/shop_time.h"

#include <utility>
#include <vector>

namespace blankwright {
namespace {

std::vector<WorkStretch> stretches(const std::vector<Given<HoursOfWork>>& hours) {
  std::vector<WorkStretch> out;
  for (const auto& h : hours) out.push_back({h.value.from, h.value.to});
  return out;
}

WorkingTime working_time(const Shop& shop) {
  const WeekFacts& w = shop.hours;
  WorkingTime out{shop.zone.value,
                  {stretches(w.monday), stretches(w.tuesday), stretches(w.wednesday), stretches(w.thursday),
                   stretches(w.friday), stretches(w.saturday), stretches(w.sunday)},
                  {}};
  for (const auto& day : w.days_off) out.days_off.push_back(day.value);
  return out;
}

}  // namespace

ShopTime shop_time(const Shop& shop, Instant at) {
  WorkingTime working = working_time(shop);
  WorkCalendar calendar{working, at};
  return {at, std::move(working), std::move(calendar)};
}

}  // namespace blankwright
