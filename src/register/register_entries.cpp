#include <fmt/format.h>

#include <algorithm>

#include "diagnose/failure.h"
#include "register/entry_rows.h"
#include "register/register.h"

namespace blankwright {
namespace {

/// A clock may be a little ahead of the one that writes the entries.
constexpr std::chrono::seconds clocks_differ{120};

Refusal no_such(std::string_view what, std::string_view name) {
  return {Refused::unknown, fmt::format("the register has no {} {}", what, name)};
}

/// Goes through entries as they would stand with `added` among them, and answers the first that could not have been.
/// Entries that were overridden are taken as they are. Where nothing is replaced only the new one is looked at: those
/// before it were looked at when they came.
template <class State>
std::optional<Refusal> first_impossible(State state, std::vector<Entry> entries, const Entry& added,
                                        EntryNumber number) {
  entries.push_back(added);
  entries.back().number = number;
  for (const Entry* entry : holding(entries)) {
    const bool looked_at = entry->number == number || (added.replaces && entry->overridden.empty());
    if (looked_at && entry->kind != EntryKind::issued) {
      if (auto why = refusal(state, *entry)) {
        if (entry->number != number) {
          why->text = fmt::format("then entry {} ({}) could not have been: {}", entry->number, name_of(entry->kind),
                                  why->text);
        }
        return why;
      }
    }
    state = after(std::move(state), *entry);
  }
  return std::nullopt;
}

}  // namespace

tl::expected<std::vector<Entry>, std::vector<Rejected>> Register::add(std::span<const Entry> entries, Instant now) {
  Transaction change{db_};
  RowWriter rows{db_, now};
  std::vector<Entry> added;
  std::vector<Rejected> rejected;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    Entry entry = entries[i];
    BW_EXPECT(entry.kind != EntryKind::issued && (entry.kind != EntryKind::corrected || entry.replaces));
    if (auto why = refused(entry, now)) {
      if (entry.overridden.empty() || !can_be_overridden(why->why)) {
        rejected.push_back({i, std::move(*why)});
        continue;
      }
    } else {
      entry.overridden.clear();  // it was not needed
    }
    entry.number = rows.entry(entry);
    if (entry.blank) rows.summary(summary_of(state_of(entries_of(*entry.blank))));
    added.push_back(std::move(entry));
  }
  if (!rejected.empty()) return tl::make_unexpected(std::move(rejected));
  change.commit();
  return added;
}

std::optional<Refusal> Register::refused(const Entry& entry, Instant now) {
  if (auto why = unknown(entry)) return why;
  if (auto why = cannot_replace(entry)) return why;
  if (auto why = wrong_time(entry, now)) return why;
  return out_of_turn(entry);
}

std::optional<Refusal> Register::unknown(const Entry& entry) {
  if (entry.blank && !has_blank(*entry.blank)) return no_such("blank", entry.blank->shown());
  const std::string order = entry.text(Field::order);
  if (!order.empty() && !has_order(order)) return no_such("order", order);
  return std::nullopt;
}

std::optional<Refusal> Register::cannot_replace(const Entry& added) {
  if (!added.replaces) return std::nullopt;
  const auto replaced = entry(*added.replaces);
  if (!replaced) return no_such("entry", std::to_string(*added.replaces));
  if (replaced->kind == EntryKind::issued || replaced->kind == EntryKind::corrected) {
    return Refusal{Refused::replaced_before,
                   fmt::format("entry {} ({}) cannot be replaced", replaced->number, name_of(replaced->kind))};
  }
  Statement ask{db_, "SELECT number FROM entries WHERE replaces = ?1"};
  if (ask.with(replaced->number).step()) {
    return Refusal{Refused::replaced_before, fmt::format("entry {} does not hold any more: entry {} replaced it",
                                                         replaced->number, ask.number(0))};
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
  if (now + clocks_differ < last)
    return clock("the clock of this machine is behind the register's last entry; set it");
  if (entry.replaces || !entry.blank) return std::nullopt;  // that one stands where the replaced one stood
  const auto state = blank(*entry.blank);
  if (entry.at < state->last_at) {
    return clock(fmt::format("it would lie before the last entry of {}", entry.blank->shown()));
  }
  return std::nullopt;
}

std::optional<Refusal> Register::out_of_turn(const Entry& entry) {
  const EntryNumber number = last_entry() + 1;
  if (entry.blank) {
    if (auto why = first_impossible(BlankState{}, entries_of(*entry.blank), entry, number)) return why;
    if (entry.kind == EntryKind::out_of_bath || entry.kind == EntryKind::drained) {
      if (auto why = refusal(bath(blank(*entry.blank)->bath), entry)) return why;
    }
  }
  // A correction concerns what the entry that it takes back concerned.
  const auto taken_back = entry.kind == EntryKind::corrected ? this->entry(*entry.replaces) : std::nullopt;
  const Entry& about = taken_back ? *taken_back : entry;
  const auto look = [&]<class State>(State state, Field name, auto entries_of_it) -> std::optional<Refusal> {
    state.name = about.text(name);
    if (state.name.empty()) return std::nullopt;
    auto entries = entries_of_it(state.name);
    return first_impossible(std::move(state), std::move(entries), entry, number);
  };
  if (auto why = look(BathState{}, Field::bath, [&](const auto& name) { return entries_of_bath(name); })) return why;
  if (auto why = look(LoadState{}, Field::load, [&](const auto& name) { return entries_of_load(name); })) return why;
  return look(ResinState{}, Field::resin, [&](const auto& name) { return entries_of_resin(name); });
}

}  // namespace blankwright
