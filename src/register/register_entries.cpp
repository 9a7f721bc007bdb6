#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <type_traits>

#include "diagnose/failure.h"
#include "entries/blank_refusal.h"
#include "entries/readings.h"
#include "register/entry_rows.h"
#include "register/register.h"
#include "register/states.h"

namespace blankwright {
namespace {

/// A clock may be a little ahead of the one that writes the entries.
constexpr std::chrono::seconds clocks_differ{120};

/// Does such an entry begin the bath or load that it names? Only what goes in does, so that a name that was mistyped
/// later on begins none.
bool begins(EntryKind kind) { return facts_of(kind).of_blank || kind == EntryKind::poured; }

Refusal missing(std::string_view what, std::string_view name) {
  return {Refused::unknown, fmt::format("the register has no {} {}", what, name)};
}

/// Only what is said of a blank has figures in it, and goes by its order.
template <class State>
std::optional<Refusal> refusal_in(const State& state, const Entry& entry, const RefusedBy& by) {
  if constexpr (std::is_same_v<State, BlankState>) return refusal(state, entry, by);
  return refusal(state, entry);
}

/// Those of the entries, as they hold, that could not have been, and why. Those that were overridden, but for the
/// last, are taken as they are.
template <class State>
std::vector<std::pair<const Entry*, Refusal>> impossible(State state, const std::vector<Entry>& entries,
                                                         const RefusedBy& by) {
  std::vector<std::pair<const Entry*, Refusal>> out;
  for (const Entry* entry : holding(entries)) {
    const bool looked_at = entry == &entries.back() || entry->overridden.empty();
    if (looked_at && entry->kind != EntryKind::issued) {
      if (auto why = refusal_in(state, *entry, by)) out.emplace_back(entry, std::move(*why));
    }
    state = after(std::move(state), *entry);
  }
  return out;
}

/// Goes through entries as they would stand with `added` among them, in its place, and answers the first that
/// could not have been then, and could before: what an earlier version took is not held against it.
template <class State>
std::optional<Refusal> first_impossible(const State& state, std::vector<Entry> entries, const Entry& added,
                                        EntryNumber number, const RefusedBy& by) {
  std::set<EntryNumber> before;
  if (!entries.empty()) {
    for (const auto& [entry, why] : impossible(state, entries, by)) before.insert(entry->number);
  }
  entries.push_back(added);
  entries.back().number = number;
  for (auto& [entry, why] : impossible(state, entries, by)) {
    if (entry->number == number) return why;
    if (before.contains(entry->number)) continue;
    why.text = fmt::format(
        "then entry {} ({}, {}) could not have been: {}; if that one is wrong, enter it again with "
        "--replaces {}",
        entry->number, name_of(entry->kind), clock_text(Zone{}, entry->at + entry->offset), why.text, entry->number);
    return why;
  }
  return std::nullopt;
}

/// Adds, in the order of their numbers, those that are not among them.
void merge(std::vector<Entry>& entries, const std::vector<Entry>& others) {
  for (const Entry& other : others) {
    const auto place = std::ranges::lower_bound(entries, other.number, {}, &Entry::number);
    if (place == entries.end() || place->number != other.number) entries.insert(place, other);
  }
}

bool comes_out(const Entry& entry) {
  return entry.kind == EntryKind::out_of_bath || entry.kind == EntryKind::drained;
}

}  // namespace

tl::expected<std::vector<Entry>, std::vector<Rejected>> Register::add(std::span<const Entry> entries, Instant now) {
  if (!db_.is_on_server() || !draw_key_) return add_once(entries, now, {});
  const std::string key = draw_key_();
  try {
    return add_once(entries, now, key);
  } catch (const ConnectionLost&) {
    unsure_ = key;
  }
  if (auto came = settle()) return std::move(*came);
  try {
    return add_once(entries, now, key);
  } catch (const ConnectionLost&) {
    unsure_ = key;
    throw;
  }
}

std::optional<std::vector<Entry>> Register::settle() {
  BW_EXPECT(unsure_.has_value());
  const Transaction after_all_others{db_};  // what was sent may just be written
  Statement ask{db_, "SELECT first_entry, last_entry FROM sendings WHERE key = ?1"};
  const bool came = ask.with(*unsure_).step();
  auto entries = came ? std::optional{entries_between(db_, ask.number(0), ask.number(1))} : std::nullopt;
  unsure_.reset();
  return entries;
}

tl::expected<std::vector<Entry>, std::vector<Rejected>> Register::add_once(std::span<const Entry> entries,
                                                                           Instant now, const std::string& key) {
  check_clock(now);
  Transaction change{db_};
  treated_.clear();  // another run may have compiled it anew
  RowWriter rows{db_, now};
  States states{*this};
  std::vector<Entry> added;
  std::vector<Rejected> rejected;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    Entry entry = entries[i];
    BW_EXPECT(entry.kind != EntryKind::issued && (entry.kind != EntryKind::corrected || entry.replaces));
    if (entry.at == not_said) set_time(entry, now, states);
    if (auto why = refused(entry, now, states)) {
      if (entry.overridden.empty() || !can_be_overridden(why->why)) {
        rejected.push_back({i, std::move(*why)});
        continue;
      }
    } else {
      entry.overridden.clear();  // it was not needed
    }
    const bool is_last = !entry.replaces && states.is_last(entry);
    entry.number = rows.entry(entry);
    states.add(entry, is_last);
    added.push_back(std::move(entry));
  }
  if (!rejected.empty()) return tl::make_unexpected(std::move(rejected));
  for (const auto& [id, blank] : states.changed()) rows.summary(summary_of(states.blank(blank)));
  if (!key.empty() && !added.empty()) {
    Statement sent{db_, "INSERT INTO sendings (key, first_entry, last_entry) VALUES (?1, ?2, ?3)"};
    sent.with(key, added.front().number, added.back().number).run();
  }
  change.commit();
  return added;
}

void Register::set_time(Entry& entry, Instant now, States& states) {
  entry.at = now;
  const bool stands_in = entry.replaces && entry.kind != EntryKind::corrected;
  if (const auto replaced = stands_in ? this->entry(*entry.replaces) : std::nullopt) {
    entry.at = replaced->at;
    entry.offset = replaced->offset;
  } else if (entry.blank && has_blank(*entry.blank)) {
    // Another run may have entered something while this one waited for it.
    const Instant last = states.blank(*entry.blank).last_at;
    if (last <= now + clocks_differ) entry.at = std::max(now, last);
  }
}

std::optional<Refusal> Register::refused(const Entry& entry, Instant now, States& states) {
  if (auto why = unknown(entry)) return why;
  if (auto why = cannot_replace(entry)) return why;
  if (auto why = says_nothing(entry)) return why;
  if (auto why = wrong_time(entry, now)) return why;
  return entry.replaces || !states.is_last(entry) ? out_of_place(entry) : out_of_turn(entry, states);
}

std::optional<Refusal> Register::unknown(const Entry& entry) {
  if (entry.blank && !has_blank(*entry.blank)) return missing("blank", entry.blank->shown());
  const std::string order = entry.text(Field::order);
  if (!order.empty() && !has_order(order)) return Refusal{Refused::unknown, no_such(Field::order, order)};
  for (const Field field : {Field::bath, Field::load}) {
    const std::string name = entry.text(field);
    if (name.empty() || begins(entry.kind) || knows(field, name)) continue;
    return Refusal{Refused::unknown, no_such(field, name)};
  }
  return std::nullopt;
}

std::optional<Refusal> Register::cannot_replace(const Entry& added) {
  if (!added.replaces) return std::nullopt;
  const auto replaced = entry(*added.replaces);
  if (!replaced) return missing("entry", std::to_string(*added.replaces));
  if (replaced->kind == EntryKind::issued || replaced->kind == EntryKind::corrected) {
    return Refusal{Refused::replaced_before,
                   fmt::format("entry {} ({}) cannot be replaced", replaced->number, name_of(replaced->kind))};
  }
  if (const auto by = replaced_by(replaced->number)) {
    return Refusal{Refused::replaced_before,
                   fmt::format("entry {} is no longer valid: entry {} replaced it", replaced->number, *by)};
  }
  if (added.blank != replaced->blank) {
    return Refusal{Refused::replaced_before,
                   fmt::format("entry {} is of {}; take it back and enter another one instead", replaced->number,
                               replaced->blank ? replaced->blank->shown() : "no blank")};
  }
  return std::nullopt;
}

std::optional<Refusal> Register::wrong_time(const Entry& entry, Instant now) {
  const auto clock = [](std::string what) { return Refusal{Refused::clock, std::move(what)}; };
  if (entry.at > now + clocks_differ) return clock("its time lies in the future");
  const Instant last{std::chrono::seconds{
      db_.number("SELECT coalesce((SELECT written_unix_s FROM entries ORDER BY number DESC LIMIT 1), 0)")}};
  if (now + clocks_differ < last) {
    return clock(fmt::format(
        "{} clock says {} UTC, and the register's last entry was written at {}: set the clock; where that "
        "one was wrong, export, and import into a new register",
        db_.is_on_server() ? "the server's" : "this machine's", clock_text(Zone{}, now), clock_text(Zone{}, last)));
  }
  return std::nullopt;
}

RefusedBy Register::refused_by() {
  return {units_, [this](const std::string& order) {
            const auto [place, is_new] = treated_.try_emplace(order, true);
            const auto job = is_new && treats_ ? stored_job(order) : std::nullopt;
            if (job) place->second = treats_(*job);
            return place->second;
          }};
}

std::optional<Refusal> Register::out_of_turn(const Entry& entry, States& states) {
  // Those before it were looked at when they came.
  const BlankState* blank = entry.blank ? &states.blank(*entry.blank) : nullptr;
  if (blank != nullptr) {
    if (auto why = refusal(*blank, entry, refused_by())) return why;
  }
  const auto look = [&]<class State>(const State& any, const std::set<std::string>& names) {
    std::optional<Refusal> why;
    for (const std::string& name : names) {
      if (!name.empty() && !why) why = refusal(states.of(any, name), entry);
    }
    return why;
  };
  if (auto why = look(BathState{}, {entry.text(Field::bath), comes_out(entry) ? blank->bath : std::string{}}))
    return why;
  if (auto why = look(LoadState{}, {entry.text(Field::load)})) return why;
  return look(ResinState{}, {entry.text(Field::resin)});
}

std::optional<Refusal> Register::out_of_place(const Entry& entry) {
  const EntryNumber number = last_entry() + 1;
  const auto replaced = entry.replaces ? this->entry(*entry.replaces) : std::nullopt;
  if (entry.blank) {
    if (auto why = first_impossible(BlankState{}, entries_of(*entry.blank), entry, number, refused_by())) return why;
  }
  // What it replaces or takes back has to be missed by nothing else, be that of another bath, load or lot.
  const auto look = [&]<class State>(State state, Field field, std::string besides, auto entries_of_it) {
    std::optional<Refusal> why;
    std::set<std::string> names{entry.text(field), std::move(besides)};
    if (replaced) names.insert(replaced->text(field));
    for (const std::string& name : names) {
      if (name.empty() || why) continue;
      state.name = name;
      auto entries = entries_of_it(name);
      if (replaced) merge(entries, entries_where(db_, "number = ?1", std::to_string(replaced->number)));
      why = first_impossible(state, std::move(entries), entry, number, refused_by());
    }
    return why;
  };
  const std::string left = comes_out(entry) ? blank(*entry.blank)->bath : std::string{};
  if (auto why = look(BathState{}, Field::bath, left, [&](const auto& name) { return entries_of_bath(name); }))
    return why;
  if (auto why = look(LoadState{}, Field::load, {}, [&](const auto& name) { return entries_of_load(name); }))
    return why;
  return look(ResinState{}, Field::resin, {}, [&](const auto& name) { return entries_of_resin(name); });
}

}  // namespace blankwright
