#include <fmt/format.h>

#include <ostream>

#include "commands/commands.h"
#include "commands/harmless_stream.h"
#include "commands/output.h"
#include "commands/prepare.h"
#include "plan/shop/plan_shop.h"
#include "sheet/tag/label.h"

namespace blankwright {
namespace {

bool fits_its_tags(const Prepared& job, const ShopInputs& inputs, const Files& disk, Diagnostics& out) {
  const int before = out.errors();
  if (job.order.sheet_template) {
    const auto own = read_named_template(disk, *job.order.sheet_template, job.order.source->name, out);
    if (own) say_near_edge(own->sheets, inputs.shop.printer, out);
    if (own) check_on_paper(job.order, inputs.shop, job.plan, own->sheets, out);
  } else {
    check_on_paper(job.order, inputs.shop, job.plan, inputs.sheet_template, out);
  }
  return out.errors() == before;
}

}  // namespace

Exit check(const CheckFlags& flags, Surroundings& around) {
  Diagnostics out;
  const std::string shop_file = shop_path(flags.shop, flags.jobs.front());
  const auto inputs = read_shop_inputs(around.disk, shop_file, out);
  if (inputs) say_near_edge(inputs->sheet_template, inputs->shop.printer, out);
  const Records records = inputs ? records_in(register_path(shop_file), inputs->shop) : Records{};
  std::vector<OrderToMake> orders;
  for (const std::string& job : flags.jobs) {
    const Source source = read_source(around.disk, job, out);
    if (source == nullptr) continue;
    if (!inputs) {  // the jobs' own mistakes are told all the same
      read_order(source, out);
    } else if (const auto prepared = prepare(source, inputs->shop, records, out)) {
      if (!fits_its_tags(*prepared, *inputs, around.disk, out)) continue;
      orders.push_back(order_to_make(prepared->order, inputs->shop, prepared->plan));
    }
  }
  std::ptrdiff_t good = 0;
  if (inputs) {
    const ShopTime time = shop_time(inputs->shop, Instant{std::chrono::seconds{around.clock.now_unix()}});
    ShopPlan plan = plan_shop(orders, inputs->shop, time, out);
    for (std::size_t i = 0; i < orders.size(); ++i) {
      OrderInShop& order = plan.orders.at(i);
      complete_times(i, plan, orders, inputs->shop, time);
      good += order.times ? 1 : 0;
      out.append(std::move(order.said));
    }
  }
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  if (!flags.quiet) {
    around.out << fmt::format("{} of {} can be compiled; {}, {}\n", good, counted(std::ssize(flags.jobs), "job"),
                              counted(out.errors(), "error"), counted(out.warnings(), "warning"));
  }
  return out.has_errors() ? Exit::mistakes : Exit::done;
}

}  // namespace blankwright
