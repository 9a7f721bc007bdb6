#include "read/text_forms.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "diagnose/problem.h"
#include "measure/read_thread.h"

namespace blankwright {
namespace {

std::optional<int> take_number(std::string_view& rest) {
  int value = 0;
  const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
  if (error != std::errc{} || value < 0) return std::nullopt;
  rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
  return value;
}

/// Work is done when these are entered; the others tell of an ID, of an end, or of an operation by its name.
bool ends_an_operation(EntryKind kind) {
  using enum EntryKind;
  constexpr std::array of_no_work{issued, promised, scrapped, withdrawn, done};
  constexpr std::array of_a_bath{vacuum_on, target_reached, bubbling_ended, released};
  return facts_of(kind).of_blank ? std::ranges::find(of_no_work, kind) == of_no_work.end()
                                 : std::ranges::find(of_a_bath, kind) != of_a_bath.end();
}

bool take(std::string_view& rest, std::string_view word) {
  if (!rest.starts_with(word)) return false;
  rest.remove_prefix(word.size());
  return true;
}

/// Two digits.
std::optional<int> take_two_digits(std::string_view& rest) {
  if (rest.size() < 2) return std::nullopt;
  std::string_view digits = rest.substr(0, 2);
  rest.remove_prefix(2);
  const auto value = take_number(digits);
  return digits.empty() ? value : std::nullopt;
}

/// "08:00" as minutes from midnight; "24:00" is the end of the day.
std::optional<std::chrono::minutes> take_clock(std::string_view& rest) {
  const auto hour = take_two_digits(rest);
  if (!hour || !take(rest, ":")) return std::nullopt;
  const auto minute = take_two_digits(rest);
  if (!minute || *minute > 59 || *hour * 60 + *minute > 24 * 60) return std::nullopt;
  return std::chrono::minutes{*hour * 60 + *minute};
}

}  // namespace

std::optional<Thread> read_thread_value(const Node& node, std::string_view name, Reading& in) {
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  const auto thread = read_thread(*typed);
  if (!thread) {
    auto& said =
        in.out.error(Problem::bad_thread, node.at, fmt::format("`{}`: {}", key_name(name), thread.error().message));
    if (const std::string hint = thread.error().hint(); !hint.empty()) said.hint(hint);
    return std::nullopt;
  }
  if (thread->warning) {
    auto& said =
        in.out.warning(Problem::thread_spelling, node.at, fmt::format("`{}`: {}", key_name(name), *thread->warning));
    if (thread->designation != *typed) said.hint(fmt::format("{} = {}", name, in_quotes(thread->designation)));
  }
  return *thread;
}

std::optional<Drill> read_drill_value(const Node& node, std::string_view name, Reading& in) {
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  const auto drill = read_drill(*typed);
  if (drill) return *drill;
  in.out.error(Problem::bad_drill, node.at, fmt::format("`{}`: {}", key_name(name), drill.error()))
      .hint("write \"8.5 mm\", \"5/16 in\", \"#7\" or \"F\"");
  return std::nullopt;
}

std::optional<Zone> read_zone_value(const Node& node, std::string_view name, Reading& in) {
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  const auto zone = find_zone(*typed);
  if (zone) return *zone;
  const auto& meant = zone.error().nearest;
  // Short names such as CST mean several zones, and the nearest spelling would be the wrong one.
  const bool whole_name = typed->find('/') != std::string::npos && !meant.empty();
  in.out
      .error(Problem::bad_zone, node.at,
             fmt::format("`{}`: no time zone has the name {}", key_name(name), in_quotes(*typed)))
      .hint(whole_name ? fmt::format("{} = {}", name, in_quotes(meant.front()))
                       : fmt::format("write area and city: {} = \"America/Chicago\" or \"Europe/Berlin\"", name));
  return std::nullopt;
}

std::optional<HoursOfWork> read_hours_value(const Node& node, std::string_view name, Reading& in) {
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  std::string_view rest = *typed;
  const auto from = take_clock(rest);
  const bool joined = from && (take(rest, "-") || take(rest, "–"));
  const auto to = joined ? take_clock(rest) : std::nullopt;
  if (to && rest.empty() && *from < *to) return HoursOfWork{*from, *to};
  in.out
      .error(Problem::bad_hours, node.at,
             fmt::format("`{}`: {} is not a stretch of a day's hours, the earlier first", key_name(name),
                         in_quotes(*typed)))
      .hint("write \"08:00-12:00\"");
  return std::nullopt;
}

std::optional<Counts> read_counts_value(const Node& node, std::string_view name, Reading& in) {
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  std::string_view rest = *typed;
  const auto good = take_number(rest);
  const bool joined = good && take(rest, " of ");
  const auto started = joined ? take_number(rest) : std::nullopt;
  constexpr int most = 1'000'000;
  if (started && rest.empty() && *good <= *started && *started > 0 && *started <= most)
    return Counts{*good, *started};
  in.out
      .error(Problem::bad_counts, node.at,
             fmt::format("`{}`: {} does not say how many came out good of how many started", key_name(name),
                         in_quotes(*typed)))
      .hint(fmt::format("{} = \"8 of 10\"", name));
  return std::nullopt;
}

std::optional<Money> read_money_value(const Node& node, std::string_view name, Reading& in) {
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  auto money = read_money(*typed);
  if (money) return money;
  in.out
      .error(Problem::bad_money, node.at,
             fmt::format("`{}`: {} is not an amount of money", key_name(name), in_quotes(*typed)))
      .hint(fmt::format("an amount and its currency by three letters: {} = \"18.50 EUR\"", name));
  return std::nullopt;
}

std::optional<Series> read_series_value(const Node& node, std::string_view name, Reading& in) {
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  const auto id = BlankId::read(*typed);
  if (id) return Series{*id};
  in.out
      .error(Problem::bad_series, node.at,
             fmt::format("`{}`: {} is no blank's ID", key_name(name), in_quotes(*typed)))
      .hint("copy the first ID of the register, or leave this out: a new register draws a series of its own");
  return std::nullopt;
}

std::vector<std::string> Form<EntryKind>::words() {
  std::vector<std::string> words;
  for (const KindFacts& facts : kind_list()) {
    if (ends_an_operation(facts.kind)) words.emplace_back(facts.name);
  }
  return words;
}

std::optional<EntryKind> Form<EntryKind>::read(const Node& node, std::string_view name, Limits, Reading& in) {
  const auto index = read_word_value(node, name, words(), in);
  return index ? std::optional{find_kind(words().at(*index))->kind} : std::nullopt;
}

}  // namespace blankwright
