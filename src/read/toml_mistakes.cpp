#include "read/toml_mistakes.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <optional>
#include <regex>
#include <vector>

#include "diagnose/problem.h"
#include "diagnose/says_toml.h"
#include "measure/utf8.h"
#include "read/shape.h"
#include "read/toml_lines.h"

namespace blankwright {
namespace {

constexpr int most_told = 20;              // lines that show the same mistake
constexpr std::size_t longest_line = 400;  // characters; no line of ours is longer, and patterns take time

std::vector<std::string> parted(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const auto end = text.find('\n');
    lines.emplace_back(text.substr(0, std::min(end, longest_line)));
    if (end == std::string_view::npos) break;
    text.remove_prefix(end + 1);
  }
  return lines;
}

/// What is told of: the lines, and where the parser stopped.
struct Stopped {
  const Source& source;
  const std::vector<std::string>& lines;
  std::size_t line;  ///< from 0
  const std::string& at(std::size_t n) const { return lines.at(n); }
  /// All of a line but the spaces before it.
  Place place(std::size_t n) const {
    const auto begin = std::min(lines.at(n).find_first_not_of(" \t"), lines.at(n).size());
    const auto length = code_point_count(without_remark(lines.at(n)));
    return {source, static_cast<int>(n) + 1, static_cast<int>(begin) + 1,
            static_cast<int>(std::max<std::size_t>(1, length))};
  }
};

std::optional<std::size_t> line_before(const Stopped& in, std::size_t n) {
  while (n-- > 0) {
    if (!without_remark(in.at(n)).empty()) return n;
  }
  return std::nullopt;
}

/// A line without what stands in double quotes.
std::string without_texts(const std::string& line) {
  std::string out;
  bool in_quotes = false;
  for (const char c : line) {
    if (c == '"') in_quotes = !in_quotes;
    if (!in_quotes && c != '"') out += c;
  }
  return out;
}

/// The line in which the list begins that is open before line n, if one is.
std::optional<std::size_t> open_list(const Stopped& in, std::size_t n) {
  std::optional<std::size_t> begins;
  std::ptrdiff_t depth = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const std::string line = without_remark(in.at(i));
    if (depth == 0 && line.find('=') == std::string::npos) continue;  // a heading
    const std::string bare = without_texts(line);
    if (depth == 0) begins = i;
    depth = std::max<std::ptrdiff_t>(0, depth + std::ranges::count(bare, '[') - std::ranges::count(bare, ']'));
  }
  return depth > 0 ? begins : std::nullopt;
}

/// Is that, by the names of tables, a list of tables in one of our files?
bool is_list_of_tables(const std::string& path) {
  for (std::vector<KeyInfo> keys : {job_key_infos(), shop_key_infos(), template_key_infos()}) {
    std::string rest = path;
    while (true) {
      const std::string name = rest.substr(0, rest.find('.'));
      const auto found = std::ranges::find(keys, name, &KeyInfo::name);
      if (found == keys.end()) break;
      const bool is_list = found->shape.type == Shape::Type::list;
      const Shape inner = is_list ? *found->shape.item : found->shape;
      if (name == rest) {
        if (is_list && inner.type == Shape::Type::table) return true;
        break;
      }
      rest = rest.substr(name.size() + 1);
      keys = inner.keys;
    }
  }
  return false;
}

/// A key or a heading that stands twice.
bool say_twice(const Stopped& in, Diagnostics& out) {
  static const std::regex heading{R"(\[([\w.\-]+)\])"}, key{R"(([\w\-]+)\s*=.*)"};
  const std::string line = without_remark(in.at(in.line));
  std::smatch m;
  const bool is_heading = std::regex_match(line, m, heading);
  if (!is_heading && !std::regex_match(line, m, key)) return false;
  const std::string name = m.str(1);
  const auto is_first = [&](std::size_t n) {
    const std::string other = without_remark(in.at(n));
    return is_heading ? other == line : other.starts_with(name) && std::regex_match(other, key);
  };
  std::size_t first = 0;
  for (std::size_t n = in.line; n-- > 0;) {
    if (is_first(n)) first = n + 1;
    if (!is_heading && in.at(n).starts_with('[')) break;
  }
  if (first == 0) return false;
  if (is_heading && is_list_of_tables(name)) {
    for (std::size_t n = first - 1; n < in.lines.size(); ++n) {
      if (without_remark(in.at(n)) == line)
        out.error(Problem::not_toml, in.place(n), says::heading_of_list, name)
            .hint(says::write_line_as, fmt::format("[[{}]]", name));
    }
  } else if (is_heading) {
    out.error(Problem::not_toml, in.place(in.line), says::heading_twice, name)
        .label(in.place(first - 1), says::the_first_one)
        .hint(says::join_headings, name);
  } else {
    out.error(Problem::not_toml, in.place(in.line), says::key_twice, name)
        .label(in.place(first - 1), says::the_first_one)
        .hint(says::leave_one_line_out);
  }
  return true;
}

/// What is missing between this line and the one before.
bool say_of_list(const Stopped& in, Diagnostics& out) {
  const auto before = line_before(in, in.line);
  const auto begins = open_list(in, in.line);
  if (!before || !begins) return false;
  const std::string line = without_remark(in.at(in.line)), last = without_remark(in.at(*before));
  static const std::regex next_key{R"(\[.*\]|[\w\-]+\s*=.*)"};
  const bool an_item = line.starts_with('{') || line.starts_with('"');
  if (an_item && (last.ends_with('}') || last.ends_with('"'))) {
    out.error(Problem::not_toml, in.place(*before), says::comma_missing).hint(says::write_line_as, last + ",");
  } else if (std::regex_match(line, next_key)) {
    out.error(Problem::not_toml, in.place(in.line), says::list_not_closed)
        .label(in.place(*begins), says::list_begins_here)
        .hint(says::close_list);
  } else {
    return false;
  }
  return true;
}

/// A table in braces that goes on over further lines.
bool say_of_braces(const Stopped& in, Diagnostics& out) {
  std::string line = without_remark(in.at(in.line));
  const auto opens = line.rfind('{');
  if (opens == std::string::npos || line.find('}', opens) != std::string::npos) return false;
  for (std::size_t n = in.line + 1; n < in.lines.size() && line.find('}') == std::string::npos; ++n) {
    const std::string more = without_remark(in.at(n));
    const bool joined = line.ends_with('{') || line.ends_with(',') || more.starts_with('}') || more.starts_with(',');
    line += (joined ? line.ends_with(',') && !more.starts_with('}') ? " " : "" : ", ") + more;
  }
  if (line.find('}') == std::string::npos) return false;
  static const std::regex comma_at_end{R"(,\s*\})"};
  line = std::regex_replace(line, comma_at_end, "}");
  out.error(Problem::not_toml, in.place(in.line), says::table_over_lines).hint(says::write_line_as, line);
  return true;
}

/// What lines show by themselves: of all of them that show the same.
bool say_of_lines(const Stopped& in, Diagnostics& out) {
  for (const LineRule rule : line_rules()) {
    if (!rule(without_remark(in.at(in.line)))) continue;
    int told = 0;
    for (std::size_t n = in.line; n < in.lines.size() && told < most_told; ++n) {
      const auto mistake = rule(without_remark(in.at(n)));
      if (!mistake) continue;
      auto& said = out.error(Problem::not_toml, in.place(n), mistake->says);
      if (mistake->better.empty()) said.hint(says::leave_line_out);
      if (!mistake->better.empty()) said.hint(says::write_line_as, mistake->better);
      ++told;
    }
    return true;
  }
  return false;
}

/// The last day of the month of which a line names a day that it has not: 2027-02-28 for 2027-02-30.
std::optional<std::chrono::year_month_day> month_end_meant(const std::string& line) {
  static const std::regex date{R"((\d{4})-(\d{2})-(\d{2}))"};
  for (std::sregex_iterator found{line.begin(), line.end(), date}, none; found != none; ++found) {
    const auto part = [&](std::size_t n) { return std::stoi(found->str(n)); };
    const auto month = std::chrono::year{part(1)} / part(2);
    const unsigned day = static_cast<unsigned>(part(3));
    if (month.ok() && day <= 31 && !(month / static_cast<int>(day)).ok())
      return std::chrono::year_month_day{month / std::chrono::last};
  }
  return std::nullopt;
}

}  // namespace

void say_not_toml(const Source& source, int line, int column, std::string_view parser_says, Diagnostics& out) {
  const std::vector<std::string> lines = parted(source->text);
  if (source->text.starts_with("{\\rtf")) {
    out.error(Problem::not_toml, {source, 1, 1, 1}, says::a_word_processors_file).hint(says::save_as_plain_text);
    return;
  }
  const Place at{source, line, column, 1};
  const auto n = static_cast<std::size_t>(std::max(0, line - 1));
  if (n < lines.size()) {
    if (const auto day = month_end_meant(lines.at(n))) {
      out.error(Problem::not_toml, at, says::not_toml, parser_says).hint(says::last_of_the_month, *day);
      return;
    }
    const Stopped in{source, lines, n};
    const bool twice = parser_says.find("redefine") != std::string_view::npos;
    if ((twice && say_twice(in, out)) || say_of_list(in, out) || say_of_braces(in, out) || say_of_lines(in, out))
      return;
  }
  out.error(Problem::not_toml, at, says::not_toml, parser_says);
}

}  // namespace blankwright
