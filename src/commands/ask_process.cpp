#include <fmt/format.h>

#include <algorithm>

#include "commands/ask_parts.h"
#include "commands/gates.h"

namespace blankwright {

Answered about_bath(Asked& asked, std::string& wrong) {
  const BathState bath = asked.at.known.bath(asked.name);
  if (bath.blanks.empty() && bath.poured.empty()) {
    wrong = fmt::format("the register has no bath {}", asked.name);
    return std::nullopt;
  }
  Answer answer = table_of(asked, rows_of(asked, bath.blanks));
  answer.facts = {{"bath", bath.name},
                  {"vacuum on", asked.when(bath.vacuum_on)},
                  {"target reached", asked.when(bath.target_reached)},
                  {"gauge", bath.gauge ? text(*bath.gauge, asked.at.units()) : ""},
                  {"bubbling ended", asked.when(bath.bubbling_ended)},
                  {"released", asked.when(bath.released)}};
  for (const BlankCut& cut : bath.cut) {
    answer.facts.emplace_back("cut open",
                              fmt::format("{}: resin {}", cut.blank.shown(), cut.good ? "through" : "not through"));
  }
  for (const auto& [lot, volume] : bath.poured) {
    answer.facts.emplace_back("poured", fmt::format("{} of resin {}", liquid_text(volume, asked.at.units()), lot));
  }
  return answer;
}

Answered about_load(Asked& asked, std::string& wrong) {
  const LoadState load = asked.at.known.load(asked.name);
  if (load.blanks.empty()) {
    wrong = fmt::format("the register has no load {}", asked.name);
    return std::nullopt;
  }
  Answer answer = table_of(asked, rows_of(asked, load.blanks));
  answer.facts = {
      {"load", load.name}, {"first in", asked.when(load.first_in)}, {"last out", asked.when(load.last_out)}};
  const auto tell = [&](const char* what, const std::vector<std::pair<Instant, Temperature>>& readings) {
    for (const auto& [at, seen] : readings) {
      answer.facts.emplace_back(what, fmt::format("{} at {}", text(seen, asked.at.units()), asked.when(at)));
    }
  };
  tell("core", load.core);
  tell("air", load.air);
  for (const BlankCut& cut : load.cut) {
    answer.facts.emplace_back("cut open", fmt::format("{}: {}", cut.blank.shown(), cut.good ? "hard" : "not hard"));
  }
  Gates gates{asked.at.known, asked.at.inputs.shop};
  if (const auto judged = gates.judge_load(asked.name, asked.now)) answer.facts.emplace_back("gate", judged->words);
  return answer;
}

Answered about_resin(Asked& asked, std::string& wrong) {
  const auto entries = asked.at.known.entries_of_resin(asked.name);
  if (entries.empty()) {
    wrong = fmt::format("the register has no lot of resin {}", asked.name);
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
  Answer answer = table_of(asked, rows_of(asked, blanks));
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
