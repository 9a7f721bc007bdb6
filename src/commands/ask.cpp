#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <ostream>

#include "commands/at_register.h"
#include "commands/commands.h"
#include "commands/gates.h"
#include "entries/statistics.h"
#include "measure/nearest.h"
#include "read/entry_text.h"
#include "write/answer_text.h"

namespace blankwright {
namespace {

/// A question being answered.
struct Asked {
  AtRegister& at;
  const std::string& name;
  Instant now;
  std::string mass(const std::optional<Mass>& value) const { return value ? text(*value, at.units()) : ""; }
  std::string length(Length value) const {
    return text(value, Printing{at.units(), Round::nearest, Fineness::measured});
  }
  std::string when(const std::optional<Instant>& value) const { return value ? clock_text(at.zone(), *value) : ""; }
};

std::string percent_text(double part) { return fmt::format("{:.1f} %", 100 * part); }

/// Where the blank is, in a table.
std::string place_of(const BlankSummary& blank) {
  if (blank.stage == Stage::in_bath) return "bath " + blank.bath;
  if (blank.stage == Stage::in_oven) return "oven, load " + blank.load;
  return blank.stage >= Stage::sent ? std::string{name_of(blank.stage)} : "shop";
}

const std::vector<std::string>& blank_columns() {
  static const std::vector<std::string> columns{"blank", "order", "stage", "place", "board", "bath",
                                                "load",  "dry",   "wet",   "cured", "since"};
  return columns;
}

std::vector<std::string> blank_row(const Asked& asked, const BlankSummary& blank) {
  return {blank.id->shown(),
          blank.promised,
          std::string{name_of(blank.stage)},
          place_of(blank),
          blank.board,
          blank.bath,
          blank.load,
          asked.mass(blank.dry),
          asked.mass(blank.wet),
          asked.mass(blank.cured),
          asked.when(blank.last_at)};
}

Answer table_of(const Asked& asked, const std::vector<KnownBlank>& blanks) {
  Answer answer;
  answer.columns = blank_columns();
  for (const KnownBlank& known : blanks) answer.rows.push_back(blank_row(asked, known.blank));
  return answer;
}

/// The rows of blanks that were named in entries.
std::vector<KnownBlank> rows_of(Asked& asked, const std::vector<BlankId>& ids) {
  std::vector<KnownBlank> out;
  for (const BlankId& id : ids) {
    if (const auto state = asked.at.known.blank(id)) out.push_back({summary_of(*state), {}, {}, {}});
  }
  return out;
}

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

/// None, with a word in `wrong`, where what was named is not there.
using Answered = std::optional<Answer>;

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

/// Good blanks beyond what their order lacks, and what they would serve.
Answered about_stock(Asked& asked, std::string&) {
  const auto blanks = asked.at.known.known_blanks();
  const auto wanted = asked.at.known.quantities();
  auto done = pieces_done(blanks);
  Gates gates{asked.at.known, asked.at.inputs.shop};
  Answer answer;
  answer.columns = {"blank", "species", "condition", "dye", "stage", "could become"};
  for (const auto& [blank, species, condition, dye] : blanks) {
    const auto quantity = wanted.find(blank.promised);
    const bool order_is_done = quantity != wanted.end() && done[blank.promised] >= quantity->second;
    if (!order_is_done || blank.stage < Stage::cured || blank.stage >= Stage::turned) continue;
    const auto lines = gates.could_become(*asked.at.known.blank(*blank.id), false);
    answer.rows.push_back({blank.id->shown(), species, condition, dye, std::string{name_of(blank.stage)},
                           fmt::format("{}", fmt::join(lines, "; "))});
  }
  return answer;
}

Answered about_under_way(Asked& asked, std::string&) {
  auto blanks = asked.at.known.known_blanks();
  std::erase_if(blanks, [](const KnownBlank& known) {
    return known.blank.stage == Stage::sent || known.blank.stage == Stage::scrapped ||
           known.blank.stage == Stage::cut_open;
  });
  return table_of(asked, blanks);
}

Answered about_yield(Asked& asked, std::string&) {
  const auto blanks = asked.at.known.known_blanks();
  const YieldCounted seen = yield_counted(blanks, asked.at.known.quantities());
  Answer answer;
  answer.facts = {{"good", std::to_string(seen.good)},
                  {"bad", std::to_string(seen.bad)},
                  {"yield", seen.ended() > 0 ? percent_text(static_cast<double>(seen.good) / seen.ended()) : ""},
                  {"witnesses cut open", std::to_string(seen.cut_open)},
                  {"under way, not counted", std::to_string(seen.under_way)}};
  answer.columns = {"reason of scrap", "blanks"};
  for (const auto& [reason, count] : seen.reasons) {
    answer.rows.push_back({reason.empty() ? "not said" : reason, std::to_string(count)});
  }
  return answer;
}

Answered about_uptake(Asked& asked, std::string&) {
  Answer answer;
  answer.columns = {"species", "condition", "blanks", "gain, wet", "deviation", "least", "most", "gain, cured"};
  for (const UptakeSeen& seen : uptake_seen(asked.at.known.known_blanks())) {
    const auto& wet = seen.wet;
    const auto part = [&](double Spread::*member) { return wet ? percent_text((*wet).*member) : ""; };
    answer.rows.push_back({seen.species, seen.condition,
                           std::to_string(wet          ? wet->n
                                          : seen.cured ? seen.cured->n
                                                       : 0),
                           part(&Spread::mean), part(&Spread::deviation), part(&Spread::least), part(&Spread::most),
                           seen.cured ? percent_text(seen.cured->mean) : ""});
  }
  return answer;
}

Answered about_axis(Asked& asked, std::string&) {
  const auto seen = axis_spread(asked.at.known.known_blanks());
  Answer answer;
  if (!seen) {
    answer.facts = {{"axes measured", "fewer than two"}};
    return answer;
  }
  const auto slope = [&](double value) {
    return fmt::format("{} per {}", asked.length(value * (100 * mm)), asked.length(100 * mm));
  };
  const std::string off = "yes: more than chance; set it";
  const std::string chance = "no: within chance";
  answer.facts = {{"axes measured", std::to_string(seen->n)},
                  {"mean offset towards face 1", asked.length(seen->mean_1)},
                  {"mean offset towards face 2", asked.length(seen->mean_2)},
                  {"fence off", seen->fence_off ? off : chance},
                  {"mean slope towards face 1", slope(seen->mean_slope_1)},
                  {"mean slope towards face 2", slope(seen->mean_slope_2)},
                  {"table out of square", seen->table_off ? off : chance},
                  {"95 of 100 offsets stay within", asked.length(seen->offset_95)},
                  {"95 of 100 slopes stay within", slope(seen->tilt_95)}};
  return answer;
}

struct Question {
  std::string_view what, name;
  Answered (*answer)(Asked&, std::string&);
};

constexpr std::array all_questions{
    Question{"blank", "a blank's ID", about_blank},
    Question{"order", "an order's id", about_order},
    Question{"bath", "a bath's name", about_bath},
    Question{"load", "a load's name", about_load},
    Question{"board", "a board's name", about_board},
    Question{"resin", "a lot's name", about_resin},
    Question{"stock", "", about_stock},
    Question{"under-way", "", about_under_way},
    Question{"yield", "", about_yield},
    Question{"uptake", "", about_uptake},
    Question{"axis", "", about_axis},
};

}  // namespace

std::vector<std::pair<std::string, std::string>> questions() {
  std::vector<std::pair<std::string, std::string>> out;
  for (const Question& question : all_questions) out.emplace_back(question.what, question.name);
  return out;
}

Exit ask(const AskFlags& flags, Surroundings& around) {
  const auto* const question = std::ranges::find(all_questions, std::string_view{flags.what}, &Question::what);
  if (question == all_questions.end()) {
    around.errors << fmt::format(
        "blankwright: ask cannot tell about \"{}\"; `blankwright ask --help` names what it can\n", flags.what);
    return Exit::command_line;
  }
  if (question->name.empty() != flags.name.empty()) {
    around.errors << (flags.name.empty()
                          ? fmt::format("blankwright: ask {} needs {}\n", question->what, question->name)
                          : fmt::format("blankwright: ask {} is about the whole shop and needs no name\n",
                                        question->what));
    return Exit::command_line;
  }
  auto at = at_register(flags.shop, around, false);
  if (!at) return Exit::mistakes;
  Asked asked{*at, flags.name, Instant{std::chrono::seconds{around.clock.now_unix()}}};
  std::string wrong;
  const auto answer = question->answer(asked, wrong);
  if (!answer) {
    around.errors << fmt::format("blankwright: {}\n", wrong);
    return Exit::mistakes;
  }
  around.out << (flags.as == "json"  ? answer_as_json(*answer)
                 : flags.as == "csv" ? answer_as_csv(*answer)
                                     : answer_as_text(*answer));
  return Exit::done;
}

}  // namespace blankwright
