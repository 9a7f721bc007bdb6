#include "read/document.h"

#include <fmt/format.h>

#include <toml++/toml.h>
#include <algorithm>
#include <chrono>

#include "diagnose/problem.h"
#include "diagnose/says_read.h"
#include "measure/utf8.h"
#include "read/toml_mistakes.h"

namespace blankwright {
namespace {

constexpr int deepest = 32;            // no file of ours nests deeper than four
constexpr int most_dotted_parts = 32;  // each part of a dotted key is a table in a table

/// The place of a byte; columns count code points.
Place place_of(const Source& source, std::size_t byte) {
  const std::string_view before = std::string_view{source->text}.substr(0, byte);
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  const std::size_t mark = before.starts_with("\uFEFF") ? 3 : 0;   // a byte order mark takes no column
  const auto line_start = std::max(before.rfind('\n') + 1, mark);  // rfind gives npos where there is none
  return {source, static_cast<int>(line), 1 + static_cast<int>(code_point_count(before.substr(line_start))), 1};
}

/// Where the string or comment ends that begins at `at`: behind its last quote, or at the end of the line or file.
std::size_t end_of_quiet(std::string_view text, std::size_t at) {
  const char opening = text.at(at);
  if (opening == '#') return std::min(text.find('\n', at), text.size());
  const std::string three(3, opening);
  const bool many_lines = text.substr(at).starts_with(three);
  const bool escapes = opening == '"';
  for (at += many_lines ? 3 : 1; at < text.size(); ++at) {
    if (escapes && text[at] == '\\') {
      ++at;
    } else if (many_lines && text.substr(at).starts_with(three)) {
      const auto behind = text.find_first_not_of(opening, at);  // up to two quotes may stand before the closing three
      return std::min(behind, std::min(at + 5, text.size()));
    } else if (!many_lines && (text[at] == opening || text[at] == '\n')) {
      return at + 1;
    }
  }
  return text.size();
}

/// Looks for what would exhaust the stack where documents are built, converted and taken down: many open brackets, or
/// a key of very many dotted parts. May also refuse what is not TOML anyway.
std::optional<Place> too_deep(const Source& source) {
  const std::string_view text = source->text;
  int depth = 0;
  int dots = 0;
  for (std::size_t at = 0; at < text.size();) {
    const char c = text[at];
    if (c == '"' || c == '\'' || c == '#') {
      at = end_of_quiet(text, at);
      continue;
    }
    if (c == '[' || c == '{') ++depth;
    if (c == ']' || c == '}') --depth;
    if (c == '=' || c == ',' || c == '\n') dots = 0;
    if (c == '.') ++dots;
    if (depth > deepest || dots > most_dotted_parts) return place_of(source, at);
    ++at;
  }
  return std::nullopt;
}

class Converter {
 public:
  explicit Converter(const Source& source) : source_{source} {}

  Node node(const toml::node& from) {
    Node to;
    to.at = place(from.source());
    if (const auto* table = from.as_table()) {
      to.type = Node::Type::table;
      for (const auto& [key, value] : *table) {
        to.members.push_back({std::string{key.str()}, place(key.source()), node(value)});
      }
      std::stable_sort(to.members.begin(), to.members.end(), [](const Member& a, const Member& b) {
        return std::tie(a.key_at.line, a.key_at.column) < std::tie(b.key_at.line, b.key_at.column);
      });
    } else if (const auto* list = from.as_array()) {
      to.type = Node::Type::list;
      for (const toml::node& item : *list) to.items.push_back(node(item));
    } else {
      scalar(from, to);
    }
    return to;
  }

 private:
  void scalar(const toml::node& from, Node& to) {
    if (const auto* text = from.as_string()) {
      to.type = Node::Type::text;
      to.text = text->get();
    } else if (const auto* count = from.as_integer()) {
      to.type = Node::Type::count;
      to.count = count->get();
      to.text = fmt::format("{}", to.count);
    } else if (const auto* real = from.as_floating_point()) {
      to.type = Node::Type::real;
      to.text = fmt::format("{}", real->get());
    } else if (const auto* truth = from.as_boolean()) {
      to.type = Node::Type::truth;
      to.truth = truth->get();
      to.text = to.truth ? "true" : "false";
    } else if (const auto* date = from.as_date()) {
      to.type = Node::Type::date;
      to.date = std::chrono::year{date->get().year} / date->get().month / date->get().day;
    } else {
      to.type = Node::Type::moment;
      const auto* moment = from.as_date_time();
      if (moment != nullptr && moment->get().is_local()) to.text = clock_text(moment->get());
    }
  }

  /// "2027-01-29 08:30"
  static std::string clock_text(const toml::date_time& at) {
    return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}", at.date.year, at.date.month, at.date.day, at.time.hour,
                       at.time.minute);
  }

  Place place(const toml::source_region& region) const {
    const int line = static_cast<int>(region.begin.line);
    const int column = static_cast<int>(region.begin.column);
    const bool one_line = region.end.line == region.begin.line && region.end.column > region.begin.column;
    return {source_, line, std::max(1, column), one_line ? static_cast<int>(region.end.column) - column : 1};
  }

  Source source_;
};

}  // namespace

Sentence<0> type_name(Node::Type type) {
  switch (type) {
    case Node::Type::text:
      return says::a_text;
    case Node::Type::count:
      return says::a_whole_number;
    case Node::Type::real:
      return says::a_decimal_number;
    case Node::Type::truth:
      return says::true_or_false;
    case Node::Type::date:
      return says::a_date;
    case Node::Type::moment:
      return says::a_time;
    case Node::Type::list:
      return says::a_list;
    case Node::Type::table:
      return says::a_table;
  }
  return {};
}

std::string_view written_at(const Place& at) {
  std::string_view text = at.source->text;
  for (int line = 1; line < at.line; ++line) text.remove_prefix(text.find('\n') + 1);
  text = text.substr(0, text.find('\n'));
  const auto begins = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; };
  for (int column = 1; column < at.column && !text.empty(); ++column) {
    text.remove_prefix(1);
    while (!text.empty() && !begins(text.front())) text.remove_prefix(1);
  }
  return text;
}

std::optional<Node> read_document(const Source& source, Diagnostics& out) {
  if (source->text.size() > largest_file) {
    out.error(Problem::file_too_large, {source}, says::file_too_large, largest_file / (1024 * 1024));
    return std::nullopt;
  }
  if (const auto bad = invalid_utf8_at(source->text)) {
    out.error(Problem::not_utf8, place_of(source, *bad), says::not_utf8).hint(says::save_as_utf8);
    return std::nullopt;
  }
  if (const auto at = too_deep(source)) {
    out.error(Problem::nested_too_deep, *at, says::nested_too_deep);
    return std::nullopt;
  }
  try {
    const toml::table table = toml::parse(source->text, source->name);
    return Converter{source}.node(table);
  } catch (const toml::parse_error& error) {
    const auto& begin = error.source().begin;
    say_not_toml(source, static_cast<int>(begin.line), static_cast<int>(begin.column), error.description(), out);
    return std::nullopt;
  }
}

}  // namespace blankwright
