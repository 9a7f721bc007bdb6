#include <fmt/format.h>
#include <fmt/ranges.h>

#include <map>

#include "commands/ask_parts.h"
#include "commands/gates.h"
#include "commands/open_shop.h"
#include "entries/fate.h"
#include "read/entry_text.h"

namespace blankwright {
namespace {

/// What is done to a blank next, by its order's plan: "60 Bath: vacuum, bath keeper, 2027-05-05 08:10".
std::string next_of(Asked& asked, const BlankState& blank) {
  if (blank.is_over()) return {};
  Diagnostics ignored;  // what cannot be planned has no next step
  const OpenShop open = plan_open_shop(asked.at.register_file, asked.at.inputs.shop, asked.now, ignored);
  const auto order = std::ranges::find(open.planned.orders, blank.promised, &PlannedOrder::id);
  if (order == open.planned.orders.end()) return {};
  const OrderTimes& times = open.times.at(static_cast<std::size_t>(order - open.planned.orders.begin()));
  const BathState bath = blank.bath.empty() ? BathState{} : asked.at.known.bath(blank.bath);
  const Standing standing = standing_of(blank, bath, times.routing);
  if (standing.next == times.routing.size()) return {};
  const OperationFacts& facts = *times.routing.at(standing.next);
  const auto number = 10 * (&facts - asked.at.inputs.shop.routing.data() + 1);
  return fmt::format("{} {}, {}, {}", number, facts.name.value, who_does(facts),
                     standing.begun ? fmt::format("since {}", asked.when(standing.begun))
                                    : asked.when(times.planned.operations.at(standing.next).start));
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
  answer.facts = {{"blank", id->shown()}};
  if (state->witness) answer.facts.emplace_back("role", "witness");
  answer.facts.emplace_back("issued to order", state->order);
  answer.facts.emplace_back("meant for order", state->promised);
  tell_client(asked, state->promised, answer);
  const bool to_be_sawn = fate_of(*state) == Fate::to_be_sawn;
  answer.facts.emplace_back("stage", stage_text(summary_of(*state)));
  answer.facts.emplace_back("place", to_be_sawn ? "" : state->place());
  if (const std::string next = next_of(asked, *state); !next.empty()) answer.facts.emplace_back("next", next);
  if (!state->reason.empty()) answer.facts.emplace_back("reason", state->reason);
  const std::vector<Judged> judgements = gates.judge(*state, asked.now);
  for (const Judged& judged : judgements) {
    answer.facts.emplace_back(fmt::format("gate: {}", name_of(judged.gate)), in_words(judged));
    for (const std::string& line : judged.details) answer.facts.emplace_back("", line);
  }
  if (const auto against = gates.against_last_step(*state, judgements))
    answer.facts.emplace_back("last step", against->words);
  for (const Way& way : gates.could_become(*state, Gates::Tell::all))
    answer.facts.emplace_back("could become", in_words(way));
  return answer;
}

Answered about_order(Asked& asked, std::string& wrong) {
  if (!asked.at.known.has_order(asked.name)) {
    wrong = asked.at.known.no_such(Field::order, asked.name);
    return std::nullopt;
  }
  const auto blanks = asked.at.known.blanks_of_order(asked.name);
  EntryOfBlank last;
  std::map<Stage, int> stages;
  int to_be_sawn = 0;
  Tally tally;
  for (const KnownBlank& known : blanks) {
    last.emplace(*known.blank.id, asked.at.known.blank(*known.blank.id)->last);
    ++(fate_of(known.blank) == Fate::to_be_sawn ? to_be_sawn : stages[known.blank.stage]);
    if (known.blank.promised == asked.name) tally.add(known.blank);
  }
  std::vector<std::string> counts;
  if (to_be_sawn > 0) counts.push_back(fmt::format("{} to be sawn", to_be_sawn));
  for (const auto& [stage, count] : stages) {
    if (count > 0) counts.push_back(fmt::format("{} {}", count, name_of(stage)));
  }
  Answer answer = table_of(asked, blanks, all_columns(), last);
  answer.facts.emplace_back("order", asked.name);
  tell_client(asked, asked.name, answer);
  const auto wanted = asked.at.known.quantities();
  if (const auto pieces = wanted.find(asked.name); pieces != wanted.end()) {
    answer.facts.emplace_back("pieces wanted", std::to_string(pieces->second));
  }
  if (const auto print = asked.at.known.print_of_order(asked.name)) {
    answer.facts.emplace_back("newest issue",
                              fmt::format("{}, printed {}", print->print.number, asked.when(print->print.made)));
  }
  answer.facts.emplace_back("so far", in_words(tally));
  answer.facts.emplace_back("blanks", fmt::format("{}", fmt::join(counts, ", ")));
  return answer;
}

Answered about_board(Asked& asked, std::string& wrong) {
  const auto entries = asked.at.known.entries_of_board(asked.name);
  if (entries.empty()) {
    wrong = asked.at.known.no_such(Field::board, asked.name);
    return std::nullopt;
  }
  Answer answer = table_of(asked, asked.at.known.blanks_of_board(asked.name), {},
                           entries_of_kind(holding(entries), EntryKind::sawn));
  answer.facts.emplace_back("board", asked.name);
  for (const Entry& entry : entries) {
    if (entry.kind == EntryKind::board) {
      answer.facts.emplace_back("came in " + asked.when(entry.at),
                                fmt::format("{} (entry {})", says_text(entry, asked.at.units()), entry.number));
    }
  }
  return answer;
}

}  // namespace blankwright
