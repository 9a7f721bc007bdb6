#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "commands/at_register.h"
#include "commands/compile_steps.h"
#include "commands/harmless_stream.h"
#include "commands/material_rows.h"
#include "entries/open_orders.h"
#include "measure/elapsed.h"
#include "plan/shop/lead.h"
#include "plan/shop/promise.h"
#include "sheet/paper/said_times.h"
#include "write/answer_text.h"

namespace blankwright {
namespace {

/// Of the orders that are through, the last ones: how long they took of what was planned, rising.
std::vector<double> leads_on_record(const RegisterPlace& register_place) {
  constexpr std::size_t most_orders = 60;  // what is long past tells little of today; common practice, no source
  auto known = Register::open_to_read(register_place);
  if (!known) return {};
  const auto one_moment = known->as_it_stands();
  const auto wanted = known->quantities();
  const auto open = open_orders(known->known_blanks(), wanted);
  std::vector<std::pair<Instant, double>> seen;
  for (const StoredOrder& order : known->stored_orders()) {
    const auto quantity = wanted.find(order.id);
    const auto prints = known->plans_of(order.id);
    if (open.contains(order.id) || quantity == wanted.end() || prints.empty()) continue;
    std::vector<BlankState> blanks;
    for (const BlankId& id : known->issued_to(order.id)) blanks.push_back(*known->blank(id));
    const auto share = lead_share(prints.front().plan, prints.front().made, blanks, quantity->second);
    if (share) seen.emplace_back(prints.front().made, *share);
  }
  std::ranges::sort(seen, std::ranges::greater{});
  if (seen.size() > most_orders) seen.resize(most_orders);
  std::vector<double> leads;
  for (const auto& [made, share] : seen) leads.push_back(share);
  std::ranges::sort(leads);
  return leads;
}

std::string share_text(double share) { return fmt::format("{:.0f} %", 100 * share); }

std::string days_text(Duration duration) { return fmt::format("{:.0f} d", std::ceil(duration / (24 * hour) - 1e-9)); }

/// Puts a promise into the words of an answer.
class Telling {
 public:
  Telling(const ReadRun& read, const PlannedTogether& planned, const Promise& promise)
      : inputs_{read.inputs}, order_{*read.jobs.front().order}, planned_{planned}, promise_{promise} {}

  Answer answer() {
    tell_dates();
    if (promise_.if_first) tell_who_gives_way(*promise_.if_first);
    tell("governs", governs());
    if (promise_.further_starts > 0)
      tell("further start",
           "in " + share_text(promise_.further_starts) + " too few come out good, and others are started");
    tell_what_it_rests_on();
    tell_what_to_order();
    return std::move(answer_);
  }

 private:
  void tell(std::string name, std::string value) { answer_.facts.emplace_back(std::move(name), std::move(value)); }

  const Zone& zone() const { return inputs_.shop.zone.value; }

  std::string day(const std::optional<Instant>& at) const {
    return at ? text(date_of(zone(), *at)) : "not within three years";
  }

  void tell_dates() {
    tell("order", order_.id.value);
    tell("item", fmt::format("{} × {}, {}", order_.quantity.value, order_.item.value, order_.client.value));
    tell("as likely as not", day(promise_.even));
    tell("to promise", day(promise_.sure));
    tell("confidence", share_text(inputs_.shop.promise.confidence.value / whole));
    if (promise_.chance_of_due)
      tell("due", fmt::format("{}, kept with {}", text(order_.due->value), share_text(*promise_.chance_of_due)));
  }

  void tell_who_gives_way(const IfFirst& first) {
    tell("if others may be later", day(first.date));
    for (const MadeLater& one : first.later) {
      tell("made later", fmt::format("{} by {}, to {}", planned_.orders.at(one.order).id,
                                     late_text(inputs_.sheet_template, one.by), day(one.finish)));
    }
  }

  /// What has to come first, or what the order waits for longest.
  std::string governs() const {
    const auto& queue = promise_.queue;
    const Duration waits = queue ? between(queue->wait.from, queue->wait.to) : Duration{};
    const Duration wood = promise_.uncertain.wood.value_or(Duration{});
    const Duration resin = promise_.uncertain.resin.value_or(Duration{});
    if (std::max(wood, resin) > waits)
      return fmt::format("delivery of {}: {}", wood >= resin ? "wood" : "resin", days_text(std::max(wood, resin)));
    if (!queue) return "its own work";
    const std::string behind = queue->behind ? ", behind " + text(in_words(*queue->behind)) : std::string{};
    return fmt::format("{}: \"{}\" waits for it until {}{}", queue->resource, queue->operation,
                       clock_text(zone(), queue->wait.to), behind);
  }

  std::string whose_yield() const {
    const PastYield& taken = promise_.uncertain.yield;
    const std::string counts = fmt::format("{} good of {} started, ", taken.good, taken.started);
    if (!promise_.yield) return counts + "assumed";
    switch (promise_.yield->counted) {
      case YieldBy::shop:
        return counts + "as the shop file says";
      case YieldBy::shop_and_register:
        return counts + "by shop file and register";
      case YieldBy::register_alone:
        return counts + "by the register";
    }
    return counts;
  }

  void tell_what_it_rests_on() {
    const Uncertain& drawn = promise_.uncertain;
    tell("rests on", whose_yield());
    tell("rests on", drawn.leads.size() >= enough_orders
                         ? fmt::format("how long the last {} orders took of what was planned", drawn.leads.size())
                         : fmt::format("times that spread by {}, assumed: {} of {} orders are on record",
                                       text(inputs_.shop.promise.spread.value), drawn.leads.size(), enough_orders));
    if (drawn.wood) tell("rests on", fmt::format("wood {} after it is ordered", days_text(*drawn.wood)));
    if (drawn.resin) tell("rests on", fmt::format("resin {} after it is ordered", days_text(*drawn.resin)));
  }

  /// What is missing for this order.
  void tell_what_to_order() {
    answer_.columns = material_columns();
    for (MaterialRow& row : material_rows(promise_.needs, inputs_.shop, planned_.time.at)) {
      const bool is_own = std::ranges::find(row.orders, order_.id.value) != row.orders.end();
      if (is_own && row.is_missing) answer_.rows.push_back(std::move(row.cells));
    }
  }

  const ShopInputs& inputs_;
  const Order& order_;
  const PlannedTogether& planned_;
  const Promise& promise_;
  Answer answer_;
};

/// As a compile of the job would plan it, with nothing issued.
ReadRun read_as_draft(const PromiseFlags& flags, ShopInputs inputs, std::vector<ReadJob> jobs,
                      RegisterPlace register_place) {
  CompileFlags draft;
  draft.jobs = {flags.job};
  draft.only = {"plan"};
  draft.draft = true;
  return {{std::move(draft), {}}, std::move(inputs), std::move(jobs), std::move(register_place), program_version()};
}

Exit promised(const ReadRun& read, const PromiseFlags& flags, Instant at, Diagnostics out, Surroundings& around) {
  auto alone = plan_each(read, at, out);
  auto open = plan_open_orders(read.register_place, read.inputs.shop, ids_of(alone), out);
  PlannedTogether planned = plan_together(std::move(alone), std::move(open), read.inputs.shop, at);
  out.append(std::move(planned.said.front()));
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  if (planned.of_run == 0) return Exit::mistakes;
  const PlannedOrder& own = planned.orders.front();
  const std::vector<OrderMaterial> materials = materials_of(planned);
  const Promise promise = promise_of({*read.jobs.front().order, planned.to_make, materials, planned.plan, own.record,
                                      own.to_start - own.witnesses, leads_on_record(read.register_place),
                                      read.inputs.shop, planned.time});
  around.out << answer_as(flags.as, Telling{read, planned, promise}.answer());
  return Exit::done;
}

}  // namespace

Exit promise(const PromiseFlags& flags, Surroundings& around) {
  Diagnostics out;
  const std::string shop_file = shop_path(flags.shop, flags.job);
  auto inputs = read_shop_inputs(around.disk, shop_file, out);
  auto jobs = read_jobs(around.disk, {flags.job}, inputs ? &*inputs : nullptr, ReadFor::no_tags, 1);
  out.append(jobs.front().said);
  if (!inputs || !jobs.front().order) {
    around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
    return Exit::mistakes;
  }
  const auto at = moment_asked(flags.at, inputs->shop.zone.value, NamedFrom::Days::ahead, around);
  if (!at) return Exit::command_line;
  RegisterPlace place = place_of_register(inputs->shop, shop_file);
  const ReadRun read = read_as_draft(flags, std::move(*inputs), std::move(jobs), std::move(place));
  return promised(read, flags, *at, std::move(out), around);
}

}  // namespace blankwright
