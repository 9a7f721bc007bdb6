#include <fmt/format.h>

#include <ostream>

#include "commands/compile_steps.h"
#include "commands/gates.h"
#include "commands/harmless_stream.h"
#include "plan/order/plan_order.h"
#include "sheet/tag/label.h"

namespace blankwright {
namespace {

/// Plans an order by itself, and tries its tags.
PlannedJob planned(std::size_t number, const ReadJob& job, const ShopInputs& inputs, const Records& records) {
  PlannedJob out;
  if (!job.order) return out;
  Record record = records(job.order->id.value);
  const auto plan = plan_order(*job.order, inputs.shop, record, out.said);
  if (!plan || !job.has_its_sheets()) return out;
  check_on_paper(*job.order, inputs.shop, *plan, sheets_of(job, inputs), out.said);
  if (!out.said.has_errors()) out.good = kept_of(number, *job.order, inputs.shop, *plan, std::move(record));
  return out;
}

/// Plans all orders together; returns how many can be compiled.
std::size_t check_together(const std::vector<ReadJob>& jobs, const ShopInputs& inputs,
                           const RegisterPlace& register_place, Instant at, Diagnostics& out) {
  const Records records = records_in(register_place, inputs.shop);
  std::vector<PlannedJob> alone;
  for (std::size_t i = 0; i < jobs.size(); ++i) alone.push_back(planned(i, jobs.at(i), inputs, records));
  take_plans_printed(register_place, alone);
  auto open = plan_open_orders(register_place, inputs.shop, ids_of(alone), out);
  const PlannedTogether run = plan_together(std::move(alone), std::move(open), inputs.shop, at);
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    out.append(jobs.at(i).said_of_sheets);
    out.append(run.said.at(i));
  }
  out.append(run.said_of_shop);
  for (std::size_t n = 0; n < run.of_run; ++n) {
    out.append(run.plan.orders.at(n).said);
    times_in_full(n, run.plan, run.to_make, inputs.shop, run.time, out);
  }
  return run.of_run;
}

}  // namespace

Exit check(const CheckFlags& flags, Surroundings& around) {
  Diagnostics out;
  const std::string shop_file = shop_path(flags.shop, flags.jobs.front());
  const auto inputs = read_shop_inputs(around.disk, shop_file, out);
  if (inputs) say_near_edge(inputs->sheet_template, inputs->shop.printer, out);
  const auto jobs = read_jobs(around.disk, flags.jobs, inputs ? &*inputs : nullptr, ReadFor::tags, 1);
  for (const ReadJob& job : jobs) out.append(job.said);
  std::size_t good = 0;
  if (inputs) {
    good = check_together(jobs, *inputs, place_of_register(inputs->shop, shop_file),
                          Instant{std::chrono::seconds{around.clock.now_unix()}}, out);
  }
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  if (!flags.quiet) {
    around.out << fmt::format("{} of {} can be compiled; {}, {}\n", good, counted(std::ssize(flags.jobs), "job"),
                              counted(out.errors(), "error"), counted(out.warnings(), "warning"));
  }
  return out.has_errors() ? Exit::mistakes : Exit::done;
}

}  // namespace blankwright
