#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <istream>
#include <ostream>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "commands/at_register.h"
#include "commands/bench_session.h"
#include "commands/commands.h"
#include "commands/gates.h"
#include "commands/harmless_stream.h"
#include "commands/new_names.h"
#include "commands/shop_names.h"
#include "read/document.h"
#include "read/entry_csv.h"
#include "read/entry_text.h"

namespace blankwright {
namespace {

/// A value that the shell has taken apart at its space: "mass=184,2" "g". In words what to write, or empty.
std::string taken_apart(const std::vector<std::string>& words) {
  for (std::size_t i = 1; i < words.size(); ++i) {
    const std::string& before = words.at(i - 1);
    const auto equals = before.find('=');
    if (equals == std::string::npos || words.at(i).find('=') != std::string::npos || BlankId::read(words.at(i)))
      continue;
    std::string value = before.substr(equals + 1) + " " + words.at(i);
    const auto comma = value.find(',');
    if (comma != std::string::npos && comma == value.rfind(',') && value.find('.') == std::string::npos)
      value.at(comma) = '.';
    return fmt::format("what has a space in it stands in quotes: {}=\"{}\"", before.substr(0, equals), value);
  }
  return {};
}

/// Why a kind is not known, and what to write.
std::string unknown_kind(const EnterFlags& flags, const std::string& fault) {
  const bool blank_first = BlankId::read(flags.kind) && !flags.words.empty() && read_kind(flags.words.front());
  return blank_first ? fmt::format("what has happened stands first: enter {} {} ...", flags.words.front(), flags.kind)
                     : fmt::format("{}\n`blankwright enter --help` names all kinds.", fault);
}

/// What was said on the command line, an entry a blank; faults are told.
std::optional<std::vector<Entry>> said_entries(const EnterFlags& flags, const AtRegister& place, Instant at,
                                               std::ostream& errors) {
  const auto kind = read_kind(flags.kind);
  if (!kind) {
    errors << fmt::format("blankwright: {}\n", unknown_kind(flags, kind.error()));
    return std::nullopt;
  }
  if (const std::string words = taken_apart(flags.words); !words.empty()) {
    errors << fmt::format("blankwright: {}\n", words);
    return std::nullopt;
  }
  SaidEntry said;
  said.kind = *kind;
  said.person = flags.person;
  if (!flags.at.empty()) said.at = at;
  said.offset = local_time(place.zone(), at).offset;
  said.overridden = flags.overridden;
  if (flags.replaces > 0) said.replaces = flags.replaces;
  std::vector<std::string> blanks;
  for (const std::string& word : flags.words) {
    const std::size_t equals = word.find('=');
    if (equals == std::string::npos) {
      blanks.push_back(word);
    } else {
      said.values.emplace_back(word.substr(0, equals), word.substr(equals + 1));
    }
  }
  if (blanks.empty()) blanks.emplace_back();
  std::vector<Entry> entries;
  bool good = true;
  for (const std::string& blank : blanks) {
    said.blank = blank;
    auto entry = read_entry(said);
    if (entry) {
      entries.push_back(std::move(*entry));
      continue;
    }
    for (const std::string& what : entry.error()) errors << fmt::format("blankwright: {}\n", what);
    good = false;
  }
  return good ? std::optional{std::move(entries)} : std::nullopt;
}

/// A correction that says nothing of a blank concerns the one that the corrected entry concerned.
void find_corrected_blank(Register& known, std::vector<Entry>& entries) {
  for (Entry& entry : entries) {
    if (entry.kind != EntryKind::corrected || entry.blank || !entry.replaces) continue;
    if (const auto replaced = known.entry(*entry.replaces)) entry.blank = replaced->blank;
  }
}

/// "NG7-32GX", "bath B3:", "load O1:".
std::string of_what(const Entry& entry) {
  if (entry.blank) return entry.blank->shown();
  const std::string bath = entry.text(Field::bath);
  return bath.empty() ? fmt::format("load {}:", entry.text(Field::load)) : fmt::format("bath {}:", bath);
}

/// Its time is told where that is not now: it may have been named otherwise than it was meant.
void tell(const Entry& entry, const AtRegister& place, Instant now, std::ostream& out) {
  const std::string says = says_text(entry, place.units());
  const std::string when = std::chrono::abs(entry.at - now) < std::chrono::minutes{1}
                               ? std::string{}
                               : fmt::format(", of {}", clock_text(place.zone(), entry.at));
  out << fmt::format("entry {}{}: {}{}{}{}\n", entry.number, when, entry.blank ? entry.blank->shown() + " " : "",
                     name_of(entry.kind), says.empty() ? "" : ": ", says);
}

template <class T>
void add_once(std::vector<T>& all, T one) {
  if (std::ranges::find(all, one) == all.end()) all.push_back(std::move(one));
}

/// When loads may come out that something was entered of.
void tell_loads(const std::vector<std::string>& loads, Gates& gates, Instant now, std::ostream& out) {
  for (const std::string& load : loads) {
    if (const auto judged = gates.judge_load(load, now)) out << fmt::format("  {}\n", in_words(*judged));
  }
}

/// What is entered afterwards is told as it stood when it happened, too: what came next is yet to be entered.
std::string as_it_stood(const Judged& now, const BlankState& blank, Gates& gates) {
  const std::string words = in_words(now);
  if (!now.is_wrong()) return words;
  for (const Judged& then : gates.judge(blank, blank.last_done)) {
    if (then.gate == now.gate && !then.is_wrong())
      return fmt::format("then: {}; by now, unless more is to be entered: {}", in_words(then), words);
  }
  return words;
}

void tell_gates(const std::vector<Entry>& entries, AtRegister& place, Gates& gates, Instant now, std::ostream& out) {
  std::vector<BlankId> blanks;
  std::vector<std::string> loads;
  for (const Entry& entry : entries) {
    if (entry.blank) add_once(blanks, *entry.blank);
    if (const std::string load = entry.text(Field::load); !load.empty()) add_once(loads, load);
  }
  tell_loads(loads, gates, now, out);
  for (const BlankId& blank : blanks) {
    const auto state = place.known.blank(blank);
    for (const Judged& judged : gates.judge(*state, now)) {
      if (judged.gate == Gate::cure && state->stage == Stage::in_oven) continue;  // told of its load
      out << fmt::format("  {} {}\n", blank.shown(), as_it_stood(judged, *state, gates));
      if (judged.gate != Gate::axis || !judged.holds()) continue;
      const auto ways = gates.could_become(*state, Gates::Tell::fitting);
      if (ways.empty()) out << "    it fits no order that lacks pieces\n";
      for (const Way& way : ways) out << fmt::format("    could become {}\n", in_words(way));
    }
  }
}

/// What is measured is measured on each blank; one figure for several is told, empty otherwise. Blanks that are
/// squared to one stop are equal.
std::string one_for_several(const std::vector<Entry>& entries) {
  const EntryKind kind = entries.front().kind;
  const bool is_measured = kind == EntryKind::weighed || kind == EntryKind::measured || kind == EntryKind::bored ||
                           kind == EntryKind::stud_measured;
  if (!is_measured || entries.size() < 2) return {};
  return fmt::format("  CHECK: {} blanks were entered with the same figures; was each {}?\n", entries.size(),
                     kind == EntryKind::weighed ? "weighed" : "measured");
}

/// What there is to say of entries that were added. In words first: whoever adds does not wait for a terminal.
std::string said_of(const std::vector<Entry>& added, const std::vector<std::string>& begun, AtRegister& place,
                    Gates& gates, Instant now) {
  std::ostringstream out;
  const auto one_moment = place.known.as_it_stands();
  for (const Entry& entry : added) tell(entry, place, now, out);
  for (const std::string& line : begun) out << fmt::format("  {}\n", line);
  for (const Entry& entry : added) {
    const std::string against = gates.against_in_words(entry);
    if (!against.empty()) out << fmt::format("  {} {}\n", of_what(entry), against);
    const std::string held = gates.held_by_cut(entry, now);
    if (!held.empty()) out << fmt::format("  {}\n", held);
    for (const std::string& odd : gates.oddities(entry)) {
      out << fmt::format("  {} CHECK: {}\n", of_what(entry), odd);
    }
    for (const HoldPassed& passed : gates.holds_passed_by(entry))
      out << fmt::format("  {} not entered: {}\n", of_what(entry), in_words(passed));
  }
  tell_gates(added, place, gates, now, out);
  return out.str();
}

/// Adds entries; where the connection to a server breaks so that nobody knows whether they came to be, says so.
tl::expected<std::vector<Entry>, std::vector<Rejected>> added_or_unsure(Register& known,
                                                                        const std::vector<Entry>& entries,
                                                                        Instant now, std::ostream& errors) {
  try {
    return known.add(entries, now);
  } catch (const ConnectionLost&) {
    errors << (known.is_unsure()
                   ? "blankwright: whether this was entered is not known: ask, when the server is back, "
                     "before you enter it again\n"
                   : "Nothing was entered.\n");
    throw;
  }
}

/// Adds what was said and tells it; what is refused is told by `name` of its place.
Exit add_all(AtRegister& place, std::vector<Entry> entries, Surroundings& around, bool quiet,
             const std::function<std::string(std::size_t)>& name) {
  const Instant now = now_at(place.known, around);
  find_corrected_blank(place.known, entries);
  bool good = true;
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const auto fault = name_from_shop(entries.at(i), place.inputs.shop);
    if (fault) around.errors << fmt::format("blankwright: {}{}\n", name(i), *fault);
    good = good && !fault;
  }
  if (!good) {
    around.errors << "Nothing was entered.\n";
    return Exit::mistakes;
  }
  Gates gates{place.known, place.inputs.shop};
  const auto begun = new_names(place.known, entries);
  const auto added = added_or_unsure(place.known, entries, now, around.errors);
  if (!added) {
    for (const Rejected& rejected : added.error()) {
      around.errors << fmt::format("blankwright: {}{}\n", name(rejected.place), rejected.refusal.text);
    }
    const bool overridable = std::ranges::all_of(
        added.error(), [](const Rejected& rejected) { return can_be_overridden(rejected.refusal.why); });
    around.errors << "Nothing was entered." << (overridable ? " If it really is so: --override \"why\".\n" : "\n");
    return Exit::mistakes;
  }
  if (quiet) return Exit::done;
  try {
    around.out << said_of(*added, begun, place, gates, now);
  } catch (const ConnectionLost&) {
    around.errors << "blankwright: it was entered; how it stands now can be asked when the server is back\n";
    throw;
  }
  return Exit::done;
}

Exit enter_table(const EnterFlags& flags, AtRegister& place, Surroundings& around) {
  constexpr std::size_t largest_table = 64 * 1024 * 1024;
  const auto text = around.disk.read(flags.csv, largest_table);
  if (!text) {
    around.errors << fmt::format("blankwright: {}: {}\n", flags.csv, text.error().words);
    return Exit::mistakes;
  }
  const auto table = read_entries_csv(*text, now_at(place.known, around), place.zone());
  if (!table) {
    for (const std::string& what : table.error()) around.errors << fmt::format("{}: {}\n", flags.csv, what);
    around.errors << "Nothing was entered.\n";
    return Exit::mistakes;
  }
  const auto line = [&](std::size_t row) { return fmt::format("line {}: ", table->lines.at(row)); };
  return add_all(place, table->entries, around, flags.quiet, line);
}

}  // namespace

Exit enter(const EnterFlags& flags, Surroundings& around) {
  if (flags.csv.empty() == flags.kind.empty()) {
    around.errors << "blankwright: enter needs what has happened, or a table by --csv\n";
    return Exit::command_line;
  }
  auto place = at_register(flags.shop, around, OpenTo::write);
  if (!place) return Exit::mistakes;
  if (!flags.csv.empty()) return enter_table(flags, *place, around);
  const auto at = moment_asked(flags.at, place->zone(), NamedFrom::Days::back, around);
  if (!at) return Exit::command_line;
  auto entries = said_entries(flags, *place, *at, around.errors);
  if (!entries) {
    around.errors << "Nothing was entered.\n";
    return Exit::mistakes;
  }
  const std::string odd = one_for_several(*entries);
  const Exit exit =
      add_all(*place, std::move(*entries), around, flags.quiet, [](std::size_t) { return std::string{}; });
  if (exit == Exit::done && !flags.quiet) around.out << odd;
  return exit;
}

namespace {

/// What was typed up to a line's end, or up to the end of all.
struct Typed {
  std::string line;
  bool ended = false;     ///< by a line's end
  bool too_long = false;  ///< `line` is its beginning
};

Typed next_line(std::istream& in) {
  constexpr std::size_t longest = 1000;  // bytes; a scanner that sticks, or a file that is no list of entries
  Typed typed;
  for (char c = 0; in.get(c);) {
    typed.ended = c == '\n';
    if (typed.ended) break;
    typed.too_long = typed.line.size() == longest;
    if (!typed.too_long) typed.line += c;
  }
  return typed;
}

void answer(const BenchAnswer& answer, std::ostream& out) {
  out << answer.words << AsIs{answer.rings ? "\a" : ""} << "\n" << std::flush;
}

/// Plans and shop of a session that goes on for days, while orders are compiled elsewhere.
class Renewal {
 public:
  Renewal(AtRegister& place, std::string shop_file, Surroundings& around)
      : place_{place}, shop_file_{std::move(shop_file)}, around_{around}, prints_{place.known.print_count()} {}

  /// Reads the shop file again where an order was compiled from other texts since. One that cannot be read just now
  /// was told when that was compiled.
  void look(BenchSession& session) {
    const std::int64_t prints = place_.known.print_count();
    if (std::exchange(prints_, prints) == prints) return;
    Diagnostics ignored;
    if (auto inputs = read_shop_inputs(around_.disk, shop_file_, ignored)) place_.inputs = std::move(*inputs);
    session.forget_plans();
  }

 private:
  AtRegister& place_;
  std::string shop_file_;
  Surroundings& around_;
  std::int64_t prints_;
};

}  // namespace

Exit bench(const BenchFlags& flags, Surroundings& around) {
  auto place = at_register(flags.shop, around, OpenTo::write);
  if (!place) return Exit::mistakes;
  BenchSession session{place->known, place->inputs.shop, around};
  Renewal renewal{*place, shop_path(flags.shop, ""), around};
  around.out << "Scan or type what is done; `help` tells what can be said.\n" << std::flush;
  Typed typed = next_line(around.in);
  for (; !session.ended() && typed.ended; typed = next_line(around.in)) {
    try {
      renewal.look(session);
      answer(typed.too_long ? session.too_long() : session.answer(typed.line), around.out);
    } catch (const ConnectionLost& gone) {
      answer(session.lost(gone.what()), around.out);
    }
    if (session.ended()) break;
  }
  // What ends the lines where the last one has no line end cut that one short: 18 of 184.2.
  const auto lost = session.ended() ? std::nullopt : session.broken_off(typed.line);
  if (lost) answer(*lost, around.out);
  return Exit::done;
}

}  // namespace blankwright
