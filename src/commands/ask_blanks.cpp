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

/// Which of the planned baths a blank waits for, by the shares of its order; none where it waits for none.
std::optional<std::size_t> bath_planned_for(const BlankState& blank, const PlannedTogether& planned,
                                            std::size_t number) {
  const Record& record = planned.orders.at(number).record;
  std::span<const BlankId> own{record.issued_to_order};
  const std::size_t pieces = own.size() - static_cast<std::size_t>(record.witnesses);
  own = blank.witness ? own.subspan(pieces) : own.first(pieces);
  const std::vector<BlankId> waiting = to_be_bathed(record, own);
  const auto found = std::ranges::find(waiting, *blank.id);
  if (found == waiting.end()) return std::nullopt;
  const auto place = found - waiting.begin();
  for (std::size_t bath = 0; bath < planned.plan.baths.size(); ++bath) {
    for (const BlankShare& share : planned.plan.baths.at(bath).shares) {
      if (share.order != number) continue;
      const int first = blank.witness ? share.first_witness : share.first;
      const int count = blank.witness ? share.witnesses : share.count;
      if (place >= first && place < first + count) return bath;
    }
  }
  return std::nullopt;
}

/// The run of an operation that a blank is in, or that is planned for it: of its bath or load, else of the bath that
/// it waits for, else the first to come. Null where none is left.
const PlannedRun* own_run(const PlannedOperation& operation, const BlankState& blank,
                          std::optional<std::size_t> bath) {
  const PlannedRun* found = nullptr;
  int closest = 0;
  for (const PlannedRun& run : operation.runs) {
    if (run.is == RunIs::past) continue;
    const bool by_name =
        !run.name.empty() && (run.name == blank.bath || run.name == blank.load || run.name == blank.drying_load);
    const int close = by_name ? 3 : bath && run.bath == bath ? 2 : 1;
    if (close > closest) found = &run;
    closest = std::max(closest, close);
  }
  return found;
}

/// Where a blank stands: where its order's plan has it while it waits for a bath, else by its entries.
Standing standing_in(const OrderToMake& order, const BlankState& blank, const BathState& bath,
                     std::span<const OperationFacts* const> routing) {
  for (const auto* waiting : {&order.waiting_pieces, &order.waiting_witnesses}) {
    const auto own = std::ranges::find(*waiting, blank.id, &BlankGroup::lowest);
    if (own != waiting->end()) return own->at;
  }
  return standing_of(blank, bath, routing);
}

/// What is done to a blank next, by its order's plan: "60 Bath: vacuum, bath keeper, 2027-05-05 08:10".
std::string next_of(Asked& asked, const BlankState& blank) {
  if (blank.is_over() || is_given_up(fate_of(blank))) return {};
  const std::string behind_all = blank.stage == Stage::inspected ? "send it" : "";
  Diagnostics ignored;  // what cannot be planned has no next step
  const OpenShop open = plan_open_shop(asked.at.register_place, asked.at.inputs.shop, asked.now, ignored);
  const auto order = std::ranges::find(open.planned.orders, blank.promised, &PlannedOrder::id);
  if (order == open.planned.orders.end()) return behind_all;
  const auto place = static_cast<std::size_t>(order - open.planned.orders.begin());
  const OrderTimes& times = open.times.at(place);
  const BathState bath = blank.bath.empty() ? BathState{} : asked.at.known.bath(blank.bath);
  const Standing standing = standing_in(open.planned.to_make.at(place), blank, bath, times.routing);
  if (standing.next == times.routing.size()) return behind_all;
  const OperationFacts& facts = *times.routing.at(standing.next);
  const auto waits_for =
      is_to_be_bathed(order->record, blank) ? bath_planned_for(blank, open.planned, place) : std::nullopt;
  const PlannedRun* run = own_run(times.planned.operations.at(standing.next), blank, waits_for);
  std::string next = fmt::format("{} {}, {}", 10 * (&facts - asked.at.inputs.shop.routing.data() + 1),
                                 facts.name.value, who_does(facts));
  if (standing.begun) {
    next += fmt::format(", since {}", asked.when(standing.begun));
    if (run != nullptr) next += fmt::format(", until {}", asked.when(run->least_end.value_or(run->at.to)));
  } else if (run != nullptr) {
    next += fmt::format(", {}", asked.when(run->at.from));
  }
  return next;
}

/// What is answered first: a blank's HOLD, or one of the routing that it went past; empty where there is none.
std::string hold_first(std::span<const Judged> judgements, std::span<const HoldPassed> passed) {
  const auto wrong = std::ranges::find_if(judgements, &Judged::is_wrong);
  if (wrong != judgements.end()) return in_words(*wrong);
  return passed.empty() ? std::string{} : fmt::format("{}; enter that it is done", in_words(passed.front()));
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
  const BlankSummary summary = summary_of(*state);
  answer.facts.emplace_back("stage", stage_words(summary));
  answer.facts.emplace_back("place", text(place_of(summary)));
  const std::vector<Judged> judgements = gates.judge(*state, asked.now);
  const std::vector<HoldPassed> passed = gates.holds_passed(*state);
  const bool is_kept = state->stage == Stage::inspected && std::ranges::any_of(judgements, &Judged::holds);
  const std::string next = is_kept ? std::string{} : next_of(asked, *state);
  const std::string first = hold_first(judgements, passed);
  if (!first.empty()) answer.facts.emplace_back("next", first);
  if (!next.empty()) answer.facts.emplace_back(first.empty() ? "next" : "then", next);
  if (!state->reason.empty()) answer.facts.emplace_back("reason", state->reason);
  for (const Judged& judged : judgements) {
    answer.facts.emplace_back(fmt::format("check: {}", name_of(judged.gate)), in_words(judged));
    for (const Saying& line : judged.details) answer.facts.emplace_back("", text(line));
  }
  for (const HoldPassed& one : passed) answer.facts.emplace_back("not entered", in_words(one));
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
  Tally tally;
  for (const KnownBlank& known : blanks) {
    last.emplace(*known.blank.id, asked.at.known.blank(*known.blank.id)->last);
    if (known.blank.promised == asked.name) tally.add(known.blank);
  }
  std::vector<std::string> counts;
  for (const auto& [stage, count] : by_stage(blanks)) counts.push_back(fmt::format("{} {}", count, stage));
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
