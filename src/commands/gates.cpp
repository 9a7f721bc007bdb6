#include "commands/gates.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "commands/output.h"
#include "entries/fate.h"
#include "measure/elapsed.h"
#include "plan/figure/figure.h"
#include "plan/gate/contradictions.h"
#include "plan/gate/gate_process.h"
#include "plan/gate/gate_resin.h"
#include "plan/gate/made_for.h"
#include "plan/order/plan_order.h"
#include "plan/order/process.h"
#include "plan/routing/operations.h"
#include "plan/routing/standing.h"
#include "plan/shop/kept_plan.h"

namespace blankwright {

namespace {

/// What was issued, without what was entered of it.
Record without_states(Record record) {
  record.blanks.clear();
  record.promised.clear();
  return record;
}

}  // namespace

Gates::Gates(Register& known, const Shop& shop) : Gates{known, shop, past_of(known, shop)} {}

Gates::Gates(Register& known, const Shop& shop, ShopPast past) : known_{known}, shop_{shop}, past_{std::move(past)} {}

const Prepared* Gates::plan_of(const std::string& order_id) {
  const auto [place, is_new] = plans_.try_emplace(order_id);
  const auto job = is_new ? known_.stored_job(order_id) : std::nullopt;
  if (job) place->second = prepared_of(order_id, *job);
  return place->second ? &*place->second : nullptr;
}

std::optional<Prepared> Gates::prepared_of(const std::string& order_id, const std::string& job) {
  Diagnostics ignored;  // the order was planned before, and its owner was told then
  auto order = read_order(std::make_shared<const SourceText>(SourceText{order_id, job}), ignored);
  if (!order) return std::nullopt;
  Record record = record_of(known_, past_, order->id.value);
  record.cure_oven = read_kept_oven(known_.newest_plan(order_id));
  auto plan = plan_order(*order, shop_, record, ignored);
  // What was measured since may keep it from being planned on; its gates are judged as it was planned.
  if (!plan) plan = plan_order(*order, shop_, without_states(record), ignored);
  return plan ? std::optional{Prepared{std::move(*order), std::move(*plan)}} : std::nullopt;
}

const Prepared* Gates::bath_plan_of(const BlankState& blank) {
  const std::string order = bath_order_of(blank);
  const Prepared* now = plan_of(order);
  if (now == nullptr || blank.bath.empty()) return now;
  const auto bathed = made_for(known_.entries_of(*blank.id), blank).bathed;
  if (!bathed || bathed->order != order) return now;
  const auto [place, is_new] = plans_then_.try_emplace({order, bathed->at});
  const auto then = is_new ? known_.texts_in_force(order, bathed->at) : std::nullopt;
  if (then && then->job != now->order.id.at.source->text) place->second = prepared_of(order, then->job);
  return place->second ? &*place->second : now;
}

void Gates::judge_by(const Order& order, const OrderPlan& plan) {
  plans_.insert_or_assign(order.id.value, Prepared{order, plan});
  plans_then_.clear();
}

void Gates::forget_plans() {
  plans_.clear();
  plans_then_.clear();
  open_.reset();
  past_ = past_of(known_, shop_);
}

std::string Gates::bath_order_of(const BlankState& blank) {
  return bath_order(blank, made_for(known_.entries_of(*blank.id), blank), [&](const std::string& order) {
    const Prepared* then = plan_of(order);
    return then == nullptr ? nullptr : &then->plan;
  });
}

const std::vector<std::string>& Gates::open_orders() {
  if (open_) return *open_;
  open_ = orders_that_lack(known_.known_blanks(), known_.quantities());
  return *open_;
}

std::vector<Judged> Gates::judge(const BlankState& blank, Instant now, Instant until) {
  if (blank.is_over()) return {};
  const std::string bath_order = bath_order_of(blank);
  const Prepared* prepared = plan_of(blank.promised);
  const Prepared* bathed_for = plan_of(bath_order);
  if (prepared == nullptr) return {not_planned(blank.promised)};
  if (bathed_for == nullptr) return {not_planned(bath_order)};
  std::vector<BathState> earlier;
  for (const EarlierBath& bath : blank.earlier_baths) earlier.push_back(known_.bath(bath.name, until));
  const LoadState load = blank.load.empty() ? LoadState{} : known_.load(blank.load, until);
  return judge_gates({.blank = blank,
                      .order = prepared->order,
                      .plan = prepared->plan,
                      .shop = shop_,
                      .bath = blank.bath.empty() ? BathState{} : known_.bath(blank.bath, until),
                      .earlier_baths = earlier,
                      .load = load,
                      .now = now,
                      .core_times = [&] { return core_times(load); },
                      .bathed_for = &bathed_for->order,
                      .bathed_by = &bath_plan_of(blank)->plan});
}

std::string in_words(const HoldPassed& passed) {
  return fmt::format("{} {}: {}", 10 * (passed.number + 1), passed.operation->name.value,
                     passed.operation->hold->value);
}

std::vector<HoldPassed> Gates::holds_passed(const BlankState& blank) {
  const Prepared* prepared = blank.is_over() ? nullptr : plan_of(blank.promised);
  if (prepared == nullptr) return {};
  PlannedDurations durations = planned_durations(prepared->plan.process, shop_);
  durations.witnessed = prepared->plan.witnesses > 0;
  const auto routing = routing_of(durations, shop_);
  const BathState bath = blank.bath.empty() ? BathState{} : known_.bath(blank.bath);
  std::vector<HoldPassed> out;
  for (const std::size_t step : blankwright::holds_passed(blank, bath, routing)) {
    if (!routing.at(step)->ended_by) continue;  // signed on paper alone, for all that is known here
    out.push_back({routing.at(step), static_cast<std::size_t>(routing.at(step) - shop_.routing.data())});
  }
  return out;
}

std::vector<HoldPassed> Gates::holds_passed_by(const Entry& entry) {
  const auto before = entry.blank ? state_before(entry) : std::nullopt;
  if (!before) return {};
  const std::vector<HoldPassed> then = holds_passed(*before);
  std::vector<HoldPassed> out = holds_passed(*known_.blank(*entry.blank));
  std::erase_if(out, [&](const HoldPassed& passed) {
    return std::ranges::find(then, passed.number, &HoldPassed::number) != then.end();
  });
  return out;
}

std::vector<CoreTime> Gates::core_times(const LoadState& load) {
  std::vector<CoreTime> times;
  for (const BlankId& id : load.blanks) {
    const BlankState blank = *known_.blank(id);
    const Prepared* prepared = bath_plan_of(blank);
    if (prepared == nullptr || !prepared->plan.process.cure) continue;
    const auto& time = cure_in(prepared->plan.process, load.oven).core_time_cautious;
    if (!time) continue;
    times.push_back({.blank = id, .time = *time, .witness = blank.witness});
    if (blank.stage > Stage::in_oven && blank.into_oven && blank.out_of_oven) {
      times.back().stay = between(*blank.into_oven, *blank.out_of_oven);
      times.back().can_be_cut = blank.stage <= Stage::stud_set;
    }
  }
  return times;
}

std::vector<Judged> Gates::judge(const BlankState& blank, Instant now) { return judge(blank, now, Instant::max()); }

std::set<BlankId> Gates::held(std::span<const BlankState> blanks, Instant now) {
  std::set<BlankId> out;
  for (const BlankState& blank : blanks) {
    if (std::ranges::any_of(judge(blank, now), &Judged::is_wrong)) out.insert(*blank.id);
  }
  return out;
}

std::optional<Judged> Gates::judge_load(const std::string& name, Instant now) {
  std::vector<std::vector<Judged>> gates;
  for (const BlankId& id : known_.load(name).blanks) {
    const auto blank = known_.blank(id);
    if (blank->stage == Stage::in_oven && blank->load == name) gates.push_back(judge(*blank, now));
  }
  return blankwright::judge_load(gates);
}

std::optional<Instant> Gates::in_oven_until(const BlankState& blank) {
  const std::string& load = blank.is_drying ? blank.drying_load : blank.load;
  const Gate in_question = blank.is_drying ? Gate::dry : Gate::cure;
  const std::vector<Judged> gates = judge(blank, known_.load(load).last_at);
  const auto gate = std::ranges::find(gates, in_question, &Judged::gate);
  return gate == gates.end() ? std::nullopt : gate->from;
}

bool Gates::soaks_again(const BlankState& blank) {
  const Prepared* prepared = blank.stage == Stage::wet ? bath_plan_of(blank) : nullptr;
  if (prepared == nullptr) return false;
  const auto gate = resin_gate({blank, prepared->plan, known_.bath(blank.bath), shop_.vacuum});
  return gate && gate->answer == ResinAnswer::soak_again;
}

void add_gates(Record& record, Gates& gates) {
  for (const BlankState& blank : record.blanks) {
    if (gates.soaks_again(blank)) record.soak_again.insert(*blank.id);
    if (!blank.is_drying && blank.stage != Stage::in_oven) continue;
    if (const auto until = gates.in_oven_until(blank)) record.in_oven_until.emplace(*blank.id, *until);
  }
}

Records records_in(const RegisterPlace& register_place, const Shop& shop) {
  struct Known {
    Register file;
    ShopPast past;
    Gates gates;
    Known(Register opened, const Shop& shop)
        : file{std::move(opened)}, past{past_of(file, shop)}, gates{file, shop, past} {}
  };
  std::shared_ptr<Known> known;
  if (auto file = Register::open_to_read(register_place)) known = std::make_shared<Known>(std::move(*file), shop);
  return [known](const std::string& order_id) {
    if (!known) return Record{};
    Record record = record_of(known->file, known->past, order_id);
    add_gates(record, known->gates);
    return record;
  };
}

std::optional<Objection> Gates::against_release(const std::string& bath, Instant at) {
  const BathState state = known_.bath(bath, at);
  for (const BlankId& blank : state.blanks) {
    const Prepared* prepared = bath_plan_of(*known_.blank(blank));
    const auto gate = prepared == nullptr ? std::nullopt : release_gate(state, prepared->plan, at);
    if (!gate || !gate->holds()) continue;
    const Verdict verdict = verdict_of(gate->answer);
    return Objection{verdict, with_hold(verdict, text(says_of(*gate, shop_.units.value)))};
  }
  return std::nullopt;
}

std::optional<BlankState> Gates::state_before(const Entry& entry) {
  const std::vector<Entry> entries = known_.entries_of(*entry.blank);
  const std::vector<const Entry*> all = holding(entries);
  const auto place = std::ranges::find(all, entry.number, &Entry::number);
  if (place == all.end()) return std::nullopt;
  BlankState before;
  for (auto earlier = all.begin(); earlier != place; ++earlier) before = after(std::move(before), **earlier);
  return before;
}

std::vector<std::string> Gates::oddities(const Entry& entry) {
  if (entry.blank) {
    const auto before = state_before(entry);
    const Prepared* prepared = before ? plan_of(before->promised) : nullptr;
    if (prepared == nullptr) return {};
    if (entry.kind == EntryKind::promised) return against_promise(*before, entry.text(Field::order));
    return contradictions(
        {.entry = entry, .before = *before, .order = prepared->order, .plan = prepared->plan, .shop = shop_});
  }
  std::vector<BlankId> blanks;
  if (const std::string bath = entry.text(Field::bath); !bath.empty()) blanks = known_.bath(bath).blanks;
  if (const std::string load = entry.text(Field::load); !load.empty()) blanks = known_.load(load).blanks;
  const Prepared* prepared = blanks.empty() ? nullptr : bath_plan_of(*known_.blank(blanks.front()));
  if (prepared == nullptr) return {};
  if (entry.kind != EntryKind::vacuum_on) return contradictions(entry, prepared->plan, shop_);
  std::vector<BlankState> inside;
  for (const BlankId& id : known_.bath(entry.text(Field::bath)).inside) inside.push_back(*known_.blank(id));
  return contradictions_of_vacuum(prepared->order, inside);
}

std::string Gates::held_by_cut(const Entry& entry, Instant now) {
  if (entry.kind != EntryKind::witness_cut || !entry.blank) return {};
  const auto cut = known_.blank(*entry.blank);
  std::set<BlankId> with_it;
  const auto add = [&](const std::vector<BlankId>& ids) { with_it.insert(ids.begin(), ids.end()); };
  if (!cut->bath.empty()) add(known_.bath(cut->bath).last_bath_of);
  if (!cut->load.empty()) add(known_.load(cut->load).blanks);
  int held = 0;
  std::string reason;
  for (const BlankId& id : with_it) {
    const auto gates = judge(*known_.blank(id), now);
    const auto wrong = std::ranges::find_if(gates, [](const Judged& judged) {
      return judged.is_wrong() && (judged.gate == Gate::witness || judged.gate == Gate::cure);
    });
    if (wrong == gates.end()) continue;
    ++held;
    reason = text(wrong->reason);
  }
  if (held == 0) return {};
  return with_hold(Verdict::held, fmt::format("{}; {}", reason, counted(held, "blank is held", "blanks are held")));
}

std::vector<Judged> Gates::passed(const Entry& entry) {
  const auto before = entry.blank ? state_before(entry) : std::nullopt;
  if (!before || !passes_gates(*before, entry)) return {};
  return judge(*before, entry.at, entry.at);
}

std::optional<Objection> Gates::against(const Entry& entry) {
  if (entry.kind == EntryKind::released) return against_release(entry.text(Field::bath), entry.at);
  return went_against(passed(entry));
}

std::string Gates::against_in_words(const Entry& entry) {
  const auto objection = against(entry);
  return objection ? objection->words : std::string{};
}

std::optional<Objection> Gates::against_last_step(const BlankState& blank, std::span<const Judged> now) {
  if (blank.is_over()) return std::nullopt;
  const std::vector<Entry> entries = known_.entries_of(*blank.id);
  const auto all = holding(entries);
  const auto last = std::ranges::find_if(all.rbegin(), all.rend(), goes_on, &Entry::kind);
  if (last == all.rend()) return std::nullopt;
  auto objection = stands_against(passed(**last), now);
  if (objection) objection->words = fmt::format("{}: {}", name_of((*last)->kind), objection->words);
  return objection;
}

std::optional<BlankOffered> Gates::offered(const BlankState& blank) {
  const Prepared* own = plan_of(blank.order);
  if (own == nullptr) return std::nullopt;
  const MadeFor made = made_for(known_.entries_of(*blank.id), blank);
  const auto done_for = [&](const std::optional<MadeFor::Step>& step) {
    const Prepared* other = step && step->order != blank.order ? plan_of(step->order) : nullptr;
    return other == nullptr ? DoneFor{} : DoneFor{&other->order, &other->plan};
  };
  return BlankOffered{
      blank, own->order, own->plan, done_for(made.bathed), done_for(made.bored), done_for(made.stud_set)};
}

std::vector<std::string> Gates::against_promise(const BlankState& blank, const std::string& order_id) {
  const auto own = offered(blank);
  const Prepared* other = plan_of(order_id);
  if (!own || other == nullptr) return {};
  return contradictions(*own, {&other->order, &other->plan, &shop_});
}

std::vector<Way> Gates::could_become(const BlankState& blank, Tell which) {
  const auto own = offered(blank);
  if (!own) return {};
  std::vector<OpenOrder> orders;
  std::vector<std::string> ids;
  for (const std::string& id : open_orders()) {
    const Prepared* prepared = plan_of(id);
    if (prepared == nullptr) continue;
    orders.push_back({&prepared->order, &prepared->plan, &shop_});
    ids.push_back(id);
  }
  std::vector<Way> ways;
  for (const CouldBecome& answer : blankwright::could_become(*own, orders)) {
    if (answer.against != Against::nothing && which != Tell::all) continue;
    ways.push_back({ids.at(answer.order), in_words(answer, shop_.units.value)});
  }
  return ways;
}

}  // namespace blankwright
