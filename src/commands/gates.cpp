#include "commands/gates.h"

#include <fmt/format.h>

#include "plan/gate_process.h"

namespace blankwright {

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

const std::vector<std::string>& Gates::open_orders() {
  if (open_) return *open_;
  open_.emplace();
  auto good = pieces_done(known_.known_blanks());
  for (const auto& [id, wanted] : known_.quantities()) {
    if (good[id] < wanted) open_->push_back(id);
  }
  return *open_;
}

std::optional<Judged> Gates::judge_witness(const BlankState& blank, const Order& order) {
  const bool wanted = order.treatment && order.treatment->witness.value;
  if (!wanted || blank.stage < Stage::cured || blank.stage > Stage::squared || blank.bath.empty())
    return std::nullopt;
  bool passed = false;
  for (const BlankId& id : known_.bath(blank.bath).blanks) {
    const auto other = known_.blank(id);
    const bool soaked_here = other->bath == blank.bath;  // last, so that this bath is what it shows
    if (other->stage != Stage::cut_open || other->pulled || !soaked_here) continue;
    if (other->result == "fail") {
      return Judged{"witness", true,
                    fmt::format("HOLD: {}, the witness of bath {}, failed{}", id.shown(), blank.bath,
                                other->reason.empty() ? "" : ": " + other->reason)};
    }
    passed = true;
  }
  if (passed) return Judged{"witness", false, fmt::format("a witness releases bath {}", blank.bath)};
  return Judged{"witness", true, fmt::format("no witness of bath {} was cut open yet", blank.bath)};
}

std::vector<Judged> Gates::judge(const BlankState& blank, Instant now) {
  if (blank.is_over() || blank.stage >= Stage::turned) return {};
  const Prepared* prepared = plan_of(blank.promised);
  if (prepared == nullptr) {
    return {{"plan", true, fmt::format("order {} cannot be planned any more; compile it again", blank.promised)}};
  }
  std::optional<Duration> soaked;
  if (blank.stage == Stage::wet) {
    const auto released = known_.bath(blank.bath).released;
    if (released && blank.out_of_bath && *blank.out_of_bath > *released) {
      soaked = static_cast<double>((*blank.out_of_bath - *released).count()) * second;
    }
  }
  std::vector<Judged> all;
  if (auto judged = judge_gate(blank, prepared->plan, shop_, soaked, now)) all.push_back(std::move(*judged));
  if (auto judged = judge_witness(blank, prepared->order)) all.push_back(std::move(*judged));
  return all;
}

std::string Gates::against_release(const std::string& bath, Instant at) {
  const BathState state = known_.bath(bath);
  for (const BlankId& blank : state.blanks) {
    const Prepared* prepared = plan_of(known_.blank(blank)->promised);
    std::string why = prepared != nullptr ? blankwright::against_release(state, prepared->plan, at) : std::string{};
    if (!why.empty()) return "HOLD: " + why;
  }
  return {};
}

std::string Gates::against_leaving(const BlankState& before, Instant at) {
  const Prepared* prepared = plan_of(before.promised);
  if (prepared == nullptr) return {};
  std::string why;
  if (before.stage == Stage::in_bath) why = against_coming_out(known_.bath(before.bath), prepared->plan, at);
  if (before.stage == Stage::in_oven) {
    why = against_unloading(known_.load(before.load), prepared->plan, shop_.units.value, at);
  }
  return why.empty() ? why : "HOLD: " + why;
}

std::string Gates::against(const Entry& entry) {
  if (entry.replaces) return {};
  if (entry.kind == EntryKind::released) return against_release(entry.text(Field::bath), entry.at);
  if (!entry.blank) return {};
  std::vector<Entry> entries = known_.entries_of(*entry.blank);
  std::erase_if(entries, [&](const Entry& other) { return other.number >= entry.number; });
  const BlankState before = state_of(entries);
  switch (entry.kind) {
    case EntryKind::out_of_bath:
    case EntryKind::drained:
    case EntryKind::out_of_oven:
      return against_leaving(before, entry.at);
    default:
      return against_going_on(before, entry.kind, entry.at);
  }
}

std::string Gates::against_going_on(const BlankState& before, EntryKind next, Instant at) {
  const bool goes_on = next == EntryKind::into_bath || next == EntryKind::into_oven || next == EntryKind::squared ||
                       next == EntryKind::bored;
  // A blank that is short of resin goes back into a bath, which is what its gate asks for.
  if (!goes_on || (next == EntryKind::into_bath && before.stage == Stage::wet)) return {};
  for (const Judged& judged : judge(before, at)) {
    if (judged.holds) return fmt::format("went on against its gate ({}): {}", judged.gate, judged.words);
  }
  return {};
}

std::vector<std::string> Gates::could_become(const BlankState& blank, bool all) {
  const Prepared* own = plan_of(blank.order);
  if (own == nullptr) return {};
  std::vector<OpenOrder> orders;
  std::vector<std::string> ids;
  for (const std::string& id : open_orders()) {
    const Prepared* prepared = plan_of(id);
    if (prepared == nullptr) continue;
    orders.push_back({&prepared->order, &prepared->plan, &shop_});
    ids.push_back(id);
  }
  std::vector<std::string> lines;
  const Printing fine{shop_.units.value, Round::down, Fineness::measured};
  for (const CouldBecome& answer : blankwright::could_become({blank, own->order, own->plan}, orders)) {
    const bool fits = answer.against == Against::nothing;
    if (!fits && !all) continue;
    const std::string spare =
        fits && answer.margin ? fmt::format(", {} to spare on the radius", text(*answer.margin, fine)) : "";
    lines.push_back(fmt::format("{}: {}{}", ids.at(answer.order), in_words(answer.against), spare));
  }
  return lines;
}

}  // namespace blankwright
