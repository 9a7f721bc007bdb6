#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "commands/ask_parts.h"
#include "commands/gates.h"

namespace blankwright {

namespace {

using Held = std::vector<const Entry*>;

/// "2027-05-04 07:30 (entry 31)": the last of that kind; empty where there is none.
std::string last_of(const Asked& asked, const Held& held, EntryKind kind) {
  std::string out;
  for (const Entry* entry : held) {
    if (entry->kind == kind) out = fmt::format("{} (entry {})", asked.when(entry->at), entry->number);
  }
  return out;
}

/// Those that were cut open, and what was seen.
void tell_cut(const std::vector<BlankCut>& cut, const Held& held, const char* good, const char* bad, Answer& answer) {
  const auto entries = entries_of_kind(held, EntryKind::witness_cut);
  for (const BlankCut& one : cut) {
    answer.facts.emplace_back("cut open", fmt::format("{}: {} (entry {})", one.blank.shown(), one.good ? good : bad,
                                                      entries.at(one.blank)));
  }
}

}  // namespace

Answered about_bath(Asked& asked, std::string& wrong) {
  const auto entries = asked.at.known.entries_of_bath(asked.name);
  const auto bath = folded<BathState>(asked.name, entries);
  if (bath.blanks.empty() && bath.poured.empty()) {
    wrong = asked.at.known.no_such(Field::bath, asked.name);
    return std::nullopt;
  }
  const Held held = holding(entries);
  Held its;  // also of blanks that went on to another bath
  for (const Entry* entry : held) {
    if (entry->text(Field::bath) == asked.name) its.push_back(entry);
  }
  constexpr std::array<std::string_view, 4> columns{"load", "dry", "wet", "cured"};
  const auto blanks = rows_of(asked, bath.blanks);
  Answer answer = table_of(asked, blanks, columns, entries_of_kind(its, EntryKind::into_bath));
  answer.facts.emplace_back("bath", bath.name);
  tell_clients(asked, blanks, answer);
  for (const Entry* entry : its) {
    if (entry->kind != EntryKind::poured) continue;
    answer.facts.emplace_back(
        "poured", fmt::format("{} of resin {} (entry {})",
                              liquid_text(entry->get<Volume>(Field::volume).value_or(Volume{}), asked.at.units()),
                              entry->text(Field::resin), entry->number));
  }
  answer.facts.emplace_back("vacuum on", last_of(asked, its, EntryKind::vacuum_on));
  answer.facts.emplace_back("target reached", last_of(asked, its, EntryKind::target_reached));
  answer.facts.emplace_back("gauge", bath.gauge ? text(*bath.gauge, asked.at.units()) : "");
  answer.facts.emplace_back("bubbling ended", last_of(asked, its, EntryKind::bubbling_ended));
  answer.facts.emplace_back("released", last_of(asked, its, EntryKind::released));
  tell_cut(bath.cut, held, "resin through", "resin not through", answer);
  return answer;
}

std::string in_which(const Entry& entry) {
  const auto blank = entry.measured_in();
  return blank ? " in " + blank->shown() : std::string{};
}

Answered about_load(Asked& asked, std::string& wrong) {
  const auto entries = asked.at.known.entries_of_load(asked.name);
  const auto load = folded<LoadState>(asked.name, entries);
  const bool dries = load.blanks.empty();
  if (dries && load.dried.empty()) {
    wrong = asked.at.known.no_such(Field::load, asked.name);
    return std::nullopt;
  }
  const Held held = holding(entries);
  const std::vector<std::string_view> columns =
      dries ? std::vector<std::string_view>{"board", "dry"} : std::vector<std::string_view>{"bath", "wet", "cured"};
  const auto blanks = rows_of(asked, dries ? load.dried : load.blanks);
  Answer answer =
      table_of(asked, blanks, columns, entries_of_kind(held, dries ? EntryKind::into_drying : EntryKind::into_oven));
  answer.facts.emplace_back("load", load.name);
  tell_clients(asked, blanks, answer);
  answer.facts.emplace_back("first in", asked.when(load.first_in));
  answer.facts.emplace_back("last out", asked.when(load.last_out));
  for (const Entry* entry : held) {
    const auto seen = entry->get<Temperature>(Field::temperature);
    if (!seen) continue;
    answer.facts.emplace_back(entry->kind == EntryKind::core_temperature ? "core" : "air",
                              fmt::format("{}{} at {} (entry {})", text(*seen, asked.at.units()), in_which(*entry),
                                          asked.when(entry->at), entry->number));
  }
  tell_cut(load.cut, held, "hard", "not hard", answer);
  Gates gates{asked.at.known, asked.at.inputs.shop};
  if (const auto judged = gates.judge_load(asked.name, asked.now))
    answer.facts.emplace_back("check", in_words(*judged));
  return answer;
}

Answered about_resin(Asked& asked, std::string& wrong) {
  const auto entries = asked.at.known.entries_of_resin(asked.name);
  if (entries.empty()) {
    wrong = asked.at.known.no_such(Field::resin, asked.name);
    return std::nullopt;
  }
  const ResinState resin = asked.at.known.resin(asked.name);
  std::vector<BlankId> blanks;
  for (const Entry* entry : holding(entries)) {
    if (entry->kind != EntryKind::poured) continue;
    for (const BlankId& id : asked.at.known.bath(entry->text(Field::bath)).blanks) {
      if (std::ranges::find(blanks, id) == blanks.end()) blanks.push_back(id);
    }
  }
  constexpr std::array<std::string_view, 1> columns{"bath"};
  Answer answer = table_of(asked, rows_of(asked, blanks), columns);
  const auto volume = [&](Volume v) { return liquid_text(v, asked.at.units()); };
  answer.facts = {
      {"resin", resin.name},
      {"opened", asked.when(resin.opened)},
      {"last activated", asked.when(resin.activated)},
      {"dye", resin.dye},
      {"activated", volume(resin.activated_volume)},
      {"poured", volume(resin.poured)},
      {"strained back", volume(resin.strained_back)},
      {"discarded", volume(resin.discarded)},
      {"left, activated", volume(resin.activated_volume - resin.poured + resin.strained_back - resin.discarded)}};
  return answer;
}

}  // namespace blankwright
