#include "commands/gates.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "commands/made_for.h"
#include "plan/gate/contradictions.h"
#include "plan/gate/gate_process.h"

namespace blankwright {

namespace {

/// What is left for the axis that a blank has, or is to get; rounded to the safe side.
std::string spare_text(const CouldBecome& answer, UnitSystem units) {
  constexpr auto si = [](Length length) { return length / metre; };
  if (answer.margin) {
    return fmt::format(", {} to spare on the radius",
                       text(*answer.margin, Printing{units, Round::down, Fineness::measured}));
  }
  if (!answer.room) return {};
  return fmt::format(", bored within Ø {} at the seat and {}",
                     text(Figure::centring_seat_position, si(2 * answer.room->offset), units),
                     text(Figure::centring_tilt, answer.room->tilt, units));
}

/// Does the one let a load out later than the other? One of which nobody knows when, last of all.
bool is_later(const Judged& one, const Judged& other) {
  if (one.holds != other.holds) return one.holds;
  return one.holds && other.from && (!one.from || *one.from > *other.from);
}

/// It goes nowhere by that: its gate may be answered so.
bool is_measured_again(const BlankState& before, EntryKind kind) {
  return (kind == EntryKind::bored && before.stage == Stage::bored) ||
         (kind == EntryKind::stud_measured && before.stage == Stage::stud_set) ||
         (kind == EntryKind::inspected && before.stage == Stage::inspected);
}

}  // namespace

Gates::Gates(Register& known, const Shop& shop) : known_{known}, shop_{shop}, past_{past_of(known, shop)} {}

const Prepared* Gates::plan_of(const std::string& order_id) {
  const auto [place, is_new] = plans_.try_emplace(order_id);
  if (is_new) {
    Diagnostics unheard;  // the order was planned before, and its owner was told then
    if (const auto job = known_.stored_job(order_id)) {
      place->second = prepare(
          std::make_shared<const SourceText>(SourceText{order_id, *job}), shop_,
          [&](const std::string& id) { return record_of(known_, past_, id); }, unheard);
    }
  }
  return place->second ? &*place->second : nullptr;
}

void Gates::forget_plans() {
  plans_.clear();
  open_.reset();
  past_ = past_of(known_, shop_);
}

std::string Gates::bath_order_of(const BlankState& blank) {
  if (blank.bath.empty()) return blank.promised;
  const auto bathed = made_for(known_.entries_of(*blank.id), blank).bathed;
  if (!bathed || bathed->order == blank.promised) return blank.promised;
  const Prepared* then = plan_of(bathed->order);
  return then == nullptr || then->plan.process.resin != nullptr ? bathed->order : blank.promised;
}

const std::vector<std::string>& Gates::open_orders() {
  if (open_) return *open_;
  open_.emplace();
  auto good = good_pieces(known_.known_blanks());
  for (const auto& [id, wanted] : known_.quantities()) {
    if (good[id] < wanted) open_->push_back(id);
  }
  return *open_;
}

std::vector<Judged> Gates::judge(const BlankState& blank, Instant now, Instant until) {
  if (blank.is_over()) return {};
  const std::string bath_order = bath_order_of(blank);
  const Prepared* prepared = plan_of(blank.promised);
  const Prepared* bathed = plan_of(bath_order);
  if (prepared == nullptr || bathed == nullptr) {
    return {{"plan", true,
             fmt::format("order {} cannot be planned any more; compile it again",
                         prepared == nullptr ? blank.promised : bath_order)}};
  }
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
                      .of_load = core_times(load),
                      .bathed_for = &bathed->order,
                      .bathed_by = &bathed->plan});
}

std::vector<CoreTime> Gates::core_times(const LoadState& load) {
  std::vector<CoreTime> times;
  if (load.core.empty()) return times;
  for (const BlankId& id : load.blanks) {
    const Prepared* prepared = plan_of(bath_order_of(*known_.blank(id)));
    if (prepared == nullptr || !prepared->plan.process.cure) continue;
    if (const auto& time = prepared->plan.process.cure->core_time_cautious) times.push_back({id, *time});
  }
  return times;
}

std::vector<Judged> Gates::judge(const BlankState& blank, Instant now) { return judge(blank, now, Instant::max()); }

std::optional<Judged> Gates::judge_load(const std::string& name, Instant now) {
  std::optional<Judged> last;
  for (const BlankId& id : known_.load(name).blanks) {
    const auto blank = known_.blank(id);
    if (blank->stage != Stage::in_oven || blank->load != name) continue;
    for (Judged& judged : judge(*blank, now)) {
      if (judged.gate != "cure") continue;
      if (!last || is_later(judged, *last)) last = std::move(judged);
    }
  }
  return last;
}

bool Gates::goes_on(EntryKind kind) {
  return kind == EntryKind::into_bath || kind == EntryKind::into_oven || kind == EntryKind::out_of_oven ||
         kind == EntryKind::squared || kind == EntryKind::bored || kind == EntryKind::stud_measured ||
         kind == EntryKind::turned || kind == EntryKind::inspected || kind == EntryKind::sent;
}

std::string Gates::against_release(const std::string& bath, Instant at) {
  const BathState state = known_.bath(bath, at);
  for (const BlankId& blank : state.blanks) {
    const Prepared* prepared = plan_of(bath_order_of(*known_.blank(blank)));
    if (prepared == nullptr) continue;
    const std::string why = blankwright::against_release(state, prepared->plan, shop_.units.value, at);
    if (!why.empty()) return "HOLD: " + why;
  }
  return {};
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
  const Prepared* prepared = blanks.empty() ? nullptr : plan_of(bath_order_of(*known_.blank(blanks.front())));
  return prepared == nullptr ? std::vector<std::string>{} : contradictions(entry, prepared->plan, shop_);
}

std::string Gates::against(const Entry& entry) {
  if (entry.kind == EntryKind::released) return against_release(entry.text(Field::bath), entry.at);
  if (!entry.blank || !goes_on(entry.kind)) return {};
  const auto before = state_before(entry);
  // A blank that is short of resin goes back into a bath, which is what its gate asks for.
  if (!before || (entry.kind == EntryKind::into_bath && before->stage == Stage::wet)) return {};
  if (is_measured_again(*before, entry.kind)) return {};
  std::vector<std::string> told;
  for (const Judged& judged : judge(*before, entry.at, entry.at)) {
    if (judged.holds) told.push_back(fmt::format("went on against its gate ({}): {}", judged.gate, judged.words));
  }
  return fmt::format("{}", fmt::join(told, "; "));
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
  const OpenOrder order{&other->order, &other->plan, &shop_};
  const auto answer = blankwright::could_become(*own, std::span{&order, 1});
  if (answer.empty() || answer.front().against == Against::nothing) return {};
  return {fmt::format("it does not fit order {}: {}", order_id, in_words(answer.front().against))};
}

std::vector<std::string> Gates::could_become(const BlankState& blank, bool all) {
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
  std::vector<std::string> lines;
  for (const CouldBecome& answer : blankwright::could_become(*own, orders)) {
    const bool fits = answer.against == Against::nothing;
    if (!fits && !all) continue;
    lines.push_back(fmt::format("{}: {}{}", ids.at(answer.order), in_words(answer.against),
                                fits ? spare_text(answer, shop_.units.value) : std::string{}));
  }
  return lines;
}

}  // namespace blankwright
