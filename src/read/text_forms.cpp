#include "read/text_forms.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "diagnose/problem.h"
#include "diagnose/says_read.h"
#include "measure/instant.h"
#include "measure/nearest.h"
#include "measure/read_thread.h"
#include "read/meant.h"

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

/// Does a zone's name have the city that was typed, but for a letter in three? Where its area alone agrees it is
/// another place.
bool is_city(std::string_view typed, std::string_view zone) {
  const auto city = [](std::string_view name) { return name.substr(name.rfind('/') + 1); };
  return edit_distance(city(typed), city(zone)) <= std::max<std::size_t>(1, city(typed).size() / 3);
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
        in.out.error(Problem::bad_thread, node.at, says::value_because, key_name(name), thread.error().message);
    if (const std::string hint = thread.error().hint(); !hint.empty()) said.hint(says::as_it_is, hint);
    return std::nullopt;
  }
  if (thread->warning) {
    auto& said =
        in.out.warning(Problem::thread_spelling, node.at, says::value_because, key_name(name), *thread->warning);
    if (thread->designation != *typed) said.hint(says::key_is, name, in_quotes(thread->designation));
  }
  return *thread;
}

std::optional<Drill> read_drill_value(const Node& node, std::string_view name, Reading& in) {
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  const auto drill = read_drill(*typed);
  if (drill) return *drill;
  in.out.error(Problem::bad_drill, node.at, says::value_because, key_name(name), drill.error())
      .hint(says::how_to_write_drills);
  return std::nullopt;
}

std::optional<Zone> read_zone_value(const Node& node, std::string_view name, Reading& in) {
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  const auto zone = find_zone(*typed);
  if (zone) return *zone;
  const auto& meant = zone.error().nearest;
  // Short names such as CST mean several zones, and the nearest spelling would be the wrong one.
  const bool whole_name = typed->find('/') != std::string::npos && !meant.empty() && is_city(*typed, meant.front());
  in.out.error(Problem::bad_zone, node.at, says::no_such_zone, key_name(name), in_quotes(*typed))
      .hint(whole_name ? say(says::key_is, name, in_quotes(meant.front())) : say(says::write_area_and_city, name));
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
  in.out.error(Problem::bad_hours, node.at, says::not_hours, key_name(name), in_quotes(*typed))
      .hint(says::such_as_hours, hours_meant(*typed).value_or("08:00-12:00"));
  return std::nullopt;
}

std::optional<DayOrTime> read_day_or_time_value(const Node& node, std::string_view name, Reading& in) {
  if (node.type == Node::Type::date) {
    const auto day = read_date_value(node, name, in);
    return day ? std::optional{DayOrTime{*day, {}}} : std::nullopt;
  }
  std::string_view rest = node.text;
  constexpr std::size_t of_date = 10;
  const auto day = parse_date(rest.substr(0, of_date));
  rest.remove_prefix(std::min(of_date, rest.size()));
  const bool joined = take(rest, " ") || take(rest, "T");
  const auto clock = joined ? take_clock(rest) : std::nullopt;
  const bool is_whole = rest.empty() && joined == clock.has_value();
  if ((node.type == Node::Type::text || node.type == Node::Type::moment) && day && is_whole)
    return DayOrTime{*day, clock};
  const bool has_form = joined && clock && rest.empty();
  in.out
      .error(Problem::bad_date, node.at,
             day || !has_form ? say(says::not_day_or_time, key_name(name))
                              : say(says::value_because, key_name(name), day.error().message))
      .hint(says::such_as_day_or_time, key_name(name), text(in.usual_day()));
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
  in.out.error(Problem::bad_counts, node.at, says::not_counts, key_name(name), in_quotes(*typed))
      .hint(says::such_as_counts, name);
  return std::nullopt;
}

std::optional<Money> read_money_value(const Node& node, std::string_view name, Reading& in) {
  if (node.type == Node::Type::count || node.type == Node::Type::real) {
    in.out.error(Problem::wrong_type, node.at, says::wrong_text_type, key_name(name), say(type_name(node.type)))
        .hint(says::such_an_amount, name, node.text);
    return std::nullopt;
  }
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  auto money = read_money(*typed);
  if (money) return money;
  in.out.error(Problem::bad_money, node.at, says::not_money, key_name(name), in_quotes(*typed))
      .hint(says::such_as_money, name);
  return std::nullopt;
}

std::optional<Series> read_series_value(const Node& node, std::string_view name, Reading& in) {
  const auto typed = read_plain_text(node, name, in);
  if (!typed) return std::nullopt;
  const auto id = BlankId::read(*typed);
  if (id) return Series{*id};
  in.out.error(Problem::bad_series, node.at, says::not_a_blanks_id, key_name(name), in_quotes(*typed))
      .hint(says::copy_first_id);
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
