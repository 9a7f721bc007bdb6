#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <ostream>

#include "commands/at_register.h"
#include "commands/compile_steps.h"
#include "commands/harmless_stream.h"
#include "commands/material_rows.h"
#include "commands/past.h"
#include "entries/open_orders.h"
#include "measure/elapsed.h"
#include "plan/shop/lead.h"
#include "plan/shop/promise.h"
#include "plan/wood/start_count.h"
#include "sheet/paper/said_times.h"
#include "write/answer_text.h"

namespace blankwright {
namespace {

/// What a promise is made from: the job's order is the first of those planned.
struct Promising {
  const ShopInputs& inputs;
  const Order& order;
  PlannedTogether planned;
  std::vector<double> leads;
  const Shop& shop() const { return inputs.shop; }
  const PlannedOrder& own() const { return planned.orders.front(); }
};

/// Of the orders that are through, the last ones.
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

std::optional<YieldSeen> yield_of(const Promising& p) {
  return yield_seen(p.own().record.yield, p.shop().yield.expected);
}

template <class Amount>
bool lacks(const std::vector<Needed<Amount>>& all, const std::string& name, const std::string& order) {
  return std::ranges::any_of(all, [&](const Needed<Amount>& one) {
    return one.name == name && one.missing > Amount{} && std::ranges::find(one.orders, order) != one.orders.end();
  });
}

Uncertain uncertain(const Promising& p, const ShopNeeds& needs) {
  const Tally& so_far = p.own().so_far;
  const auto yield = yield_of(p);
  Uncertain out;
  out.wanted = std::max(0, p.order.quantity.value - so_far.good);
  out.in_work = std::max(0, p.own().to_start - p.own().witnesses - so_far.good - so_far.lost);
  out.yield = yield ? PastYield{yield->good, yield->started} : usual_yield;
  out.confidence = p.shop().yield.confidence.value / whole;
  out.spread = p.shop().promise.spread.value / whole;
  out.leads = p.leads;
  const OrderMaterial& material = p.own().material;
  if (p.shop().promise.wood_delivery && material.on_boards.value_or(0) < material.to_saw)
    out.wood = p.shop().promise.wood_delivery->value;
  const ResinFacts* resin = p.planned.to_make.front().resin;
  if (resin != nullptr && resin->delivery && lacks(needs.resin, resin->name.value, p.own().id))
    out.resin = resin->delivery->value;
  return out;
}

std::string day_of(const Promising& p, const std::optional<Instant>& at) {
  return at ? text(date_of(p.shop().zone.value, *at)) : "not within three years";
}

std::string days_text(Duration duration) { return fmt::format("{:.0f} d", std::ceil(duration / (24 * hour) - 1e-9)); }

/// The orders planned with this one before all others, which give way.
struct GivenWay {
  std::vector<OrderToMake> orders;
  ShopPlan plan;
};
GivenWay given_way(const Promising& p) {
  GivenWay out{p.planned.to_make, {}};
  for (std::size_t i = 0; i < out.orders.size(); ++i) out.orders.at(i).holds_place = i == 0;
  Diagnostics ignored;
  out.plan = plan_shop(out.orders, p.shop(), p.planned.time, ignored);
  return out;
}

void tell_who_gives_way(const Promising& p, const Uncertain& uncertain, const std::optional<Instant>& promised,
                        Answer& answer) {
  if (p.planned.orders.size() < 2) return;
  const double confidence = p.shop().promise.confidence.value / whole;
  const GivenWay other = given_way(p);
  if (!other.plan.orders.front().times) return;
  const auto earlier = drawn_dates(other.plan, other.orders, 0, uncertain, p.shop(), p.planned.time).at(confidence);
  if (!earlier || day_of(p, earlier) == day_of(p, promised)) return;
  if (promised && *earlier > *promised) return;
  answer.facts.emplace_back("if others may be later", day_of(p, earlier));
  for (std::size_t i = 1; i < p.planned.orders.size(); ++i) {
    const auto& then = other.plan.orders.at(i).times;
    const Instant now = p.planned.plan.orders.at(i).times->planned.finish;
    if (!then || then->planned.finish <= now) continue;
    const auto by = std::chrono::floor<std::chrono::minutes>(then->planned.finish - now);
    answer.facts.emplace_back("made later",
                              fmt::format("{} by {}, to {}", p.planned.orders.at(i).id,
                                          late_text(p.inputs.sheet_template, by), day_of(p, then->planned.finish)));
  }
}

/// What the order waits for longest, or what has to come first.
std::string governs(const Promising& p, const Uncertain& uncertain) {
  const PlacedTimes& times = *p.planned.plan.orders.front().times;
  const Instant at = p.planned.time.at;
  const auto queue = queue_of({p.own().id, &times}, placed_of(p.planned.plan, p.planned.to_make), at);
  const Duration waits = queue ? between(queue->wait.from, queue->wait.to) : Duration{};
  const Duration wood = uncertain.wood.value_or(Duration{}), resin = uncertain.resin.value_or(Duration{});
  if (std::max(wood, resin) > waits)
    return fmt::format("delivery of {}: {}", wood >= resin ? "wood" : "resin", days_text(std::max(wood, resin)));
  if (!queue) return "its own work";
  const std::string behind = queue->behind ? ", behind " + text(in_words(*queue->behind)) : std::string{};
  return fmt::format("{}: \"{}\" waits for it until {}{}", queue->resource, queue->operation,
                     clock_text(p.shop().zone.value, queue->wait.to), behind);
}

void tell_what_it_rests_on(const Promising& p, const Uncertain& uncertain, Answer& answer) {
  const auto rests = [&](std::string on) { answer.facts.emplace_back("rests on", std::move(on)); };
  const auto yield = yield_of(p);
  rests(!yield ? fmt::format("{} good of {} started, assumed", uncertain.yield.good, uncertain.yield.started)
               : fmt::format("{} good of {} started, {}", yield->good, yield->started,
                             yield->counted == YieldBy::shop             ? "as the shop file says"
                             : yield->counted == YieldBy::register_alone ? "by the register"
                                                                         : "by shop file and register"));
  const std::size_t orders = uncertain.leads.size();
  rests(orders >= enough_orders ? fmt::format("how long the last {} orders took of what was planned", orders)
                                : fmt::format("times that spread by {}, assumed: {} of {} orders are on record",
                                              text(p.shop().promise.spread.value), orders, enough_orders));
  if (uncertain.wood) rests(fmt::format("wood {} after it is ordered", days_text(*uncertain.wood)));
  if (uncertain.resin) rests(fmt::format("resin {} after it is ordered", days_text(*uncertain.resin)));
}

/// What is missing for this order, and by when to order it.
void tell_what_to_order(const Promising& p, const ShopNeeds& needs, Answer& answer) {
  answer.columns = material_columns();
  for (MaterialRow& row : material_rows(needs, p.shop(), p.planned.time.at)) {
    const bool is_own = std::ranges::find(row.orders, p.own().id) != row.orders.end();
    if (is_own && row.is_missing) answer.rows.push_back(std::move(row.cells));
  }
}

Answer answered(const Promising& p) {
  const ShopNeeds needs = needs_of(p.planned, p.shop());
  const Uncertain drawn = uncertain(p, needs);
  const double confidence = p.shop().promise.confidence.value / whole;
  const DrawnDates dates = drawn_dates(p.planned.plan, p.planned.to_make, 0, drawn, p.shop(), p.planned.time);
  const auto promised = dates.at(confidence);
  const auto share = [](double part) { return fmt::format("{:.0f} %", 100 * part); };
  Answer answer;
  answer.facts = {
      {"order", p.order.id.value},
      {"item", fmt::format("{} × {}, {}", p.order.quantity.value, p.order.item.value, p.order.client.value)},
      {"as likely as not", day_of(p, dates.at(0.5))},
      {"to promise", day_of(p, promised)},
      {"confidence", share(confidence)}};
  const auto due = p.order.due ? end_of_work(p.planned.time.working, p.order.due->value) : std::nullopt;
  if (due)
    answer.facts.emplace_back("due",
                              fmt::format("{}, kept with {}", text(p.order.due->value), share(dates.by(*due))));
  tell_who_gives_way(p, drawn, promised, answer);
  answer.facts.emplace_back("governs", governs(p, drawn));
  if (dates.further_starts > 0) {
    answer.facts.emplace_back("further start", fmt::format("in {} too few come out good, and others are started",
                                                           share(static_cast<double>(dates.further_starts) /
                                                                 static_cast<double>(dates.draws))));
  }
  tell_what_it_rests_on(p, drawn, answer);
  tell_what_to_order(p, needs, answer);
  return answer;
}

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
  const Promising promising{read.inputs, *read.jobs.front().order, std::move(planned),
                            leads_on_record(read.register_place)};
  around.out << answer_as(flags.as, answered(promising));
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
