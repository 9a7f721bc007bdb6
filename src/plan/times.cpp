#include "plan/times.h"

#include <fmt/format.h>

namespace blankwright {
namespace {

constexpr Duration usual_hands_on = 10 * minute;  // at the start or end of an operation that runs by itself

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

Operation operation(const OperationFacts& facts, int pieces) {
  Operation op;
  op.name = facts.name.value;
  op.who = facts.who.value;
  op.length = bare(facts.fixed).value_or(0 * second) + pieces * bare(facts.per_piece).value_or(0 * second);
  op.hands_on = hands_on(facts.hands_on.value);
  op.hands_on_at_start = bare(facts.hands_on_time).value_or(std::min(usual_hands_on, op.length / 2));
  op.hands_on_at_end = op.hands_on_at_start;
  op.unattended = facts.unattended.value;
  op.may_run_long = facts.may_run_long.value;
  op.longest = bare(facts.most);
  op.longest_wait = bare(facts.longest_wait);
  return op;
}

void say_late(const Order& order, const Shop& shop, const OrderTimes& times, Diagnostics& out) {
  const Delivery& d = *times.delivery;
  if (d.late_by.count() <= 0) return;
  const std::string latest =
      d.latest_start ? fmt::format("it would have had to start by {}", local_text(shop.zone.value, *d.latest_start))
                     : std::string{"no start within three years would have done"};
  out.warning(Problem::finishes_late, order.due->at,
              fmt::format("earliest finish is {}, after the due date; {}",
                          local_text(shop.zone.value, times.planned.finish), latest));
}

}  // namespace

ShopTime shop_time(const Shop& shop, Instant at) {
  WorkingTime working = working_time(shop);
  WorkCalendar calendar{working, at};
  return {at, std::move(working), std::move(calendar)};
}

std::optional<OrderTimes> plan_times(const Order& order, const Shop& shop, int pieces, const ShopTime& time,
                                     Diagnostics& out) {
  OrderTimes times;
  for (const OperationFacts& facts : shop.routing) times.operations.push_back(operation(facts, pieces));
  auto planned = schedule(times.operations, time.calendar, time.at);
  if (!planned) {
    const OperationFacts& facts = shop.routing.at(planned.error().operation);
    out.error(Problem::schedule_impossible, facts.place,
              fmt::format("operation \"{}\" cannot be planned for {} pieces: {}", facts.name.value, pieces,
                          reason(planned.error().why)))
        .label(order.quantity.at, "the order");
    return std::nullopt;
  }
  times.planned = std::move(*planned);
  const auto due = order.due ? end_of_work(time.working, order.due->value) : std::nullopt;
  if (due) {
    times.delivery = delivery(times.operations, time.calendar, times.planned, *due);
    say_late(order, shop, times, out);
  }
  return times;
}

}  // namespace blankwright
