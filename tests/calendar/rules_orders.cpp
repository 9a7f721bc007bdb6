#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ratio>

#include "rules.h"

namespace calendar_rules {
namespace {

void check_operations(const Planned& planned, const Order& order, Breaches& out) {
  std::string wanted, told;
  for (const Operation& op : planned.shop.routing) wanted += applies(planned, order.id, op) ? op.name + ", " : "";
  for (const PlannedOperation& op : planned.plans.at(order.id).schedule) told += op.name + ", ";
  if (told != wanted) out.push_back({"operations", fmt::format("{}: {}instead of {}", order.id, told, wanted)});
}

void check_finish(const Planned& planned, const Order& order, Breaches& out) {
  const Plan& plan = planned.plans.at(order.id);
  Instant last{};
  for (const PlannedOperation& op : plan.schedule) {
    for (const Run& run : op.runs) last = std::max(last, run.at.to);
  }
  if (last != Instant{} && last != plan.finish)
    out.push_back({"finish", fmt::format("{}: told {}, its last run ends {}", order.id,
                                         planned.zone.clock_text(plan.finish), planned.zone.clock_text(last))});
  if (!order.due) return;
  const Instant due = planned.hours.end_of_work(*order.due);
  const std::chrono::duration<double, std::ratio<3600>> late = std::max(Minutes{0}, plan.finish - due);
  if (!plan.late_by_h || std::abs(*plan.late_by_h - late.count()) > 0.02)
    out.push_back(
        {"late", fmt::format("{}: told {} h, it is {:.2f} h", order.id, plan.late_by_h.value_or(-1), late.count())});
}

}  // namespace

void check_orders(const Planned& planned, Breaches& out) {
  for (const auto& [id, order] : planned.orders) {
    check_operations(planned, order, out);
    check_finish(planned, order, out);
  }
}

Breaches broken_rules(const Planned& planned) {
  Breaches out;
  const std::vector<Chain> chains = chains_of(planned, out);
  check_time(planned, chains, out);
  check_lengths(planned, chains, out);
  check_order(planned, chains, out);
  check_fillings(planned, chains, out);
  check_orders(planned, out);
  check_standing(planned, out);
  return out;
}

}  // namespace calendar_rules
