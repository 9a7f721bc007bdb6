#include "commands/order_on_paper.h"

#include <utility>

#include "plan/order/plan_order.h"

namespace blankwright {
namespace {

/// Adds what was entered of the order's blanks.
void add_seen(const Record& record, Dossier& dossier) {
  if (dossier.draft) return;
  for (const BlankState& blank : record.blanks) dossier.seen.emplace(*blank.id, blank);
  dossier.held = record.held;
}

/// What the plan knew of the past, the blanks that the order has now, and the ovens that it goes into.
Record record_as_issued(const OrderOfRun& o) {
  Record record = o.planned().record;
  record.issued_to_order = o.issued.blanks;
  record.witnesses = o.planned().witnesses;
  const PlacedTimes& times = o.run.plan.orders.at(o.number).times.value();
  record.drying_oven = oven_of(times, PlannedWork::drying);
  record.cure_oven = oven_of(times, PlannedWork::cure);
  return record;
}

bool is_draft(const OrderOfRun& o) { return o.flags().draft || std::ssize(o.issued.blanks) < o.planned().to_start; }

}  // namespace

OrderOnPaper::OrderOnPaper(OrderPlan plan, Diagnostics to_list, const OrderOfRun& o, std::span<const IssuedTo> issued)
    : said_{o.run.plan.orders.at(o.number).said},
      to_list_{std::move(to_list)},
      plan_{std::move(plan)},
      times_{times_in_full(o.number, o.run.plan, o.run.to_make, o.read.inputs.shop, o.run.time, said_)},
      dossier_{*o.job().order,
               o.read.inputs.shop,
               plan_,
               times_,
               sheets_of(o.job(), o.read.inputs),
               is_draft(o) ? std::vector<BlankId>{} : o.issued.blanks,
               is_draft(o),
               o.run.time.at,
               o.read.program,
               baths_of(o.number, o.run.plan, issued),
               loads_of(o.number, o.run.plan, issued)} {
  to_list_.append(said_);
  dossier_.issue = o.issued.issue;
  add_seen(o.planned().record, dossier_);
}

std::unique_ptr<const OrderOnPaper> order_on_paper(const OrderOfRun& o, std::span<const IssuedTo> issued) {
  Diagnostics to_list = o.job().said;
  auto plan = plan_order(*o.job().order, o.read.inputs.shop, record_as_issued(o), to_list);
  if (!plan || plan->blanks() != o.planned().to_start) return nullptr;
  return std::make_unique<const OrderOnPaper>(std::move(*plan), std::move(to_list), o, issued);
}

}  // namespace blankwright
