#include <fmt/format.h>
#include <fmt/ranges.h>

#include <map>

#include "commands/ask_parts.h"
#include "commands/gates.h"
#include "read/entry_text.h"

namespace blankwright {
namespace {

Answer history(Asked& asked, Gates& gates, const std::vector<Entry>& entries) {
  std::map<EntryNumber, EntryNumber> replaced_by;
  for (const Entry& entry : entries) {
    if (entry.replaces) replaced_by.emplace(*entry.replaces, entry.number);
  }
  Answer answer;
  answer.columns = {"entry", "when", "what", "says", "by", "holds"};
  for (const Entry& entry : entries) {
    const auto replaced = replaced_by.find(entry.number);
    std::string says = says_text(entry, asked.at.units());
    if (entry.replaces) says += fmt::format("{}replaces entry {}", says.empty() ? "" : ", ", *entry.replaces);
    if (!entry.overridden.empty()) says += fmt::format(", overridden: {}", entry.overridden);
    if (const std::string against = gates.against(entry); !against.empty()) says += fmt::format(", {}", against);
    answer.rows.push_back({std::to_string(entry.number), asked.when(entry.at), std::string{name_of(entry.kind)}, says,
                           entry.person,
                           replaced == replaced_by.end() ? "yes" : fmt::format("no, see {}", replaced->second)});
  }
  return answer;
}

}  // namespace

Answered about_blank(Asked& asked, std::string& wrong) {
  const auto id = BlankId::read(asked.name);
  if (!id) {
    wrong = in_words(id.error(), asked.name);
    return std::nullopt;
  }
  const auto state = asked.at.known.blank(*id);
  if (!state) {
    wrong = fmt::format("the register has no blank {}", id->shown());
    return std::nullopt;
  }
  Gates gates{asked.at.known, asked.at.inputs.shop};
  Answer answer = history(asked, gates, asked.at.known.entries_of(*id));
  answer.facts = {{"blank", id->shown()},
                  {"issued to order", state->order},
                  {"meant for order", state->promised},
                  {"stage", std::string{name_of(state->stage)}},
                  {"place", state->place()}};
  if (!state->reason.empty()) answer.facts.emplace_back("reason", state->reason);
  for (const Judged& judged : gates.judge(*state, asked.now)) {
    answer.facts.emplace_back("gate: " + judged.gate, judged.words);
    for (const std::string& line : judged.details) answer.facts.emplace_back("", line);
  }
  for (const std::string& line : gates.could_become(*state, true)) answer.facts.emplace_back("could become", line);
  return answer;
}

Answered about_order(Asked& asked, std::string& wrong) {
  if (!asked.at.known.has_order(asked.name)) {
    wrong = fmt::format("the register has no order {}", asked.name);
    return std::nullopt;
  }
  const auto blanks = asked.at.known.blanks_of_order(asked.name);
  Answer answer = table_of(asked, blanks);
  std::map<Stage, int> stages;
  for (const KnownBlank& known : blanks) ++stages[known.blank.stage];
  std::vector<std::string> counts;
  for (const auto& [stage, count] : stages) counts.push_back(fmt::format("{} {}", count, name_of(stage)));
  answer.facts = {{"order", asked.name}, {"blanks", fmt::format("{}", fmt::join(counts, ", "))}};
  const auto wanted = asked.at.known.quantities();
  if (const auto pieces = wanted.find(asked.name); pieces != wanted.end()) {
    answer.facts.emplace_back("pieces wanted", std::to_string(pieces->second));
  }
  return answer;
}

Answered about_board(Asked& asked, std::string& wrong) {
  const auto entries = asked.at.known.entries_of_board(asked.name);
  if (entries.empty()) {
    wrong = fmt::format("the register has no board {}", asked.name);
    return std::nullopt;
  }
  Answer answer = table_of(asked, asked.at.known.blanks_of_board(asked.name));
  answer.facts.emplace_back("board", asked.name);
  for (const Entry& entry : entries) {
    if (entry.kind == EntryKind::board) {
      answer.facts.emplace_back("came in " + asked.when(entry.at), says_text(entry, asked.at.units()));
    }
  }
  return answer;
}

}  // namespace blankwright
