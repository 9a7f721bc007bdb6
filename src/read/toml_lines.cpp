#include "read/toml_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <regex>
#include <utility>

#include "diagnose/says_toml.h"

namespace blankwright {
namespace {

using Found = std::optional<LineMistake>;

std::string replaced(std::string text, std::string_view what, std::string_view by) {
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
    text.replace(at, what.size(), by);
  return text;
}

/// A quantity as people type it, without quotes: a number, perhaps with a fraction, and a unit.
constexpr const char* bare_quantity = R"((-?\d[\d.,/\- ]*(?:[A-Za-z%°"'µ][A-Za-z0-9%°"'µ/ ]*)?))";

std::string quoted(std::string value) {
  static const std::regex decimal_comma{R"((\d),(\d))"}, inches{R"(\s*("|'')$)"};
  value = std::regex_replace(value, decimal_comma, "$1.$2");
  value = std::regex_replace(value, inches, " in");
  while (value.ends_with(' ')) value.pop_back();
  const bool has_unit = value.find_first_not_of("0123456789.,/- ") != std::string::npos;
  return "\"" + value + (has_unit ? "" : " mm") + "\"";
}

/// A value as it would be read: a number, a text in quotes, anything in brackets as it is; other words in quotes.
std::string as_value(std::string value) {
  static const std::regex as_it_is{R"(-?\d+(\.\d+)?|\d{4}-\d\d-\d\d|true|false|["'\[{].*)"};
  static const std::regex quantity{bare_quantity};
  if (std::regex_match(value, as_it_is)) return value;
  return std::regex_match(value, quantity) ? quoted(std::move(value)) : "\"" + value + "\"";
}

Found fence(const std::string& line) { return line.starts_with("```") ? Found{{says::a_fence, {}}} : std::nullopt; }

Found curly(const std::string& line) {
  std::string better = line;
  for (const char* quote : {"“", "”", "„", "‟", "«", "»", "″"}) better = replaced(better, quote, "\"");
  for (const char* quote : {"‘", "’", "‚", "‛"}) {
    if (better.find(quote) != std::string::npos && better.find('"') == std::string::npos)
      better = replaced(better, quote, "\"");
  }
  return better == line ? std::nullopt : Found{{says::curly_quotes, better}};
}

Found colon(const std::string& line) {
  static const std::regex form{R"(([A-Za-z_]\w*)\s*:\s*(\S.*))"};
  std::smatch m;
  if (!std::regex_match(line, m, form)) return std::nullopt;
  return LineMistake{says::colon_for_equals, fmt::format("{} = {}", m.str(1), as_value(m.str(2)))};
}

Found semicolon(const std::string& line) {
  static const std::regex form{R"((.*=.*\S)\s*;)"};
  std::smatch m;
  if (!std::regex_match(line, m, form)) return std::nullopt;
  return LineMistake{says::semicolon_at_end, m.str(1)};
}

/// A date that is not written as TOML has it, anywhere behind an equals sign.
Found date(const std::string& line) {
  static const std::regex form{R"((.*=\s*)["']?(\d{1,4}[-./]\s*\d{1,2}[-./]\s*\d{1,4})["']?(.*))"};
  std::smatch m;
  if (!std::regex_match(line, m, form)) return std::nullopt;
  const auto meant = date_meant(m.str(2));
  if (!meant || *meant == m.str(2)) return std::nullopt;
  return LineMistake{says::date_as_year_month_day, m.str(1) + *meant + m.str(3)};
}

Found truth(const std::string& line) {
  static const std::regex form{R"((\w+\s*=\s*)(yes|no|on|off|ja|nein|true|false))", std::regex::icase};
  std::smatch m;
  if (!std::regex_match(line, m, form) || m.str(2) == "true" || m.str(2) == "false") return std::nullopt;
  const char letter = m.str(2) == "on" || m.str(2) == "ON" ? 'y' : m.str(2).front();
  const bool is_true = std::string_view{"yYjJtT"}.find(letter) != std::string_view::npos;
  return LineMistake{says::not_true_or_false, m.str(1) + (is_true ? "true" : "false")};
}

Found inch_sign(const std::string& line) {
  static const std::regex form{R"rx("(\d[\d./ \-]*)"")rx"};
  const std::string better = std::regex_replace(line, form, "\"$1 in\"");
  return better == line ? std::nullopt : Found{{says::inch_sign_in_quotes, better}};
}

/// Of each key of the line that has a bare quantity, in braces too.
Found bare_quantities(const std::string& line) {
  static const std::regex form{std::string{R"((\w\s*=\s*))"} + bare_quantity + R"((?=\s*(?:[,}\]]|$)))"};
  static const std::regex number{R"(-?\d+(\.\d+)?|\d{4}-\d\d-\d\d)"};
  std::string better;
  auto from = line.cbegin();
  for (std::sregex_iterator it{line.begin(), line.end(), form}, end; it != end; ++it) {
    const std::smatch& m = *it;
    better.append(from, m[0].first);
    from = m[0].second;
    std::string value = m.str(2);
    while (value.ends_with(' ')) value.pop_back();
    better += m.str(1) + (std::regex_match(value, number) ? value : quoted(value));
  }
  better.append(from, line.cend());
  return better == line ? std::nullopt : Found{{says::quantity_without_quotes, better}};
}

Found unclosed(const std::string& line) {
  if (std::ranges::count(line, '"') % 2 == 0) return std::nullopt;
  static const std::regex form{R"(\w+\s*=\s*"[^"]*)"};
  if (!std::regex_match(line, form)) return std::nullopt;
  return LineMistake{says::quote_not_closed, line + "\""};
}

Found spaced_key(const std::string& line) {
  static const std::regex form{R"(([A-Za-z]\w*(?: +\w+)+)\s*(=.*))"}, spaces{" +"};
  std::smatch m;
  if (!std::regex_match(line, m, form)) return std::nullopt;
  return LineMistake{says::space_in_key, std::regex_replace(m.str(1), spaces, "_") + " " + m.str(2)};
}

Found bare_text(const std::string& line) {
  static const std::regex form{R"((\w+\s*=\s*)([^\s"'\[{\d+\-][^"']*))"};
  std::smatch m;
  if (!std::regex_match(line, m, form) || m.str(2) == "true" || m.str(2) == "false") return std::nullopt;
  return LineMistake{says::text_without_quotes, m.str(1) + "\"" + m.str(2) + "\""};
}

Found columns(const std::string& line) {
  static const std::regex form{R"(["']?([\d.,]+\s*[A-Za-z]+)["']?[\s;,]+["']?([\d.,]+\s*[A-Za-z]+)["']?,?)"};
  std::smatch m;
  if (!std::regex_match(line, m, form)) return std::nullopt;
  return LineMistake{says::columns_for_station,
                     fmt::format("{{at = {}, diameter = {}}},", quoted(m.str(1)), quoted(m.str(2)))};
}

Found no_equals_sign(const std::string& line) {
  static const std::regex form{R"(([A-Za-z]\w*)\s+([\d"'].*))"};
  std::smatch m;
  if (!std::regex_match(line, m, form)) return std::nullopt;
  return LineMistake{says::no_equals, fmt::format("{} = {}", m.str(1), as_value(m.str(2)))};
}

Found remark_goes_on(const std::string& line) {
  static const std::regex form{R"([A-Za-z][^=]*)"};
  return std::regex_match(line, form) ? Found{{says::comment_goes_on, "# " + line}} : std::nullopt;
}

}  // namespace

const std::vector<LineRule>& line_rules() {
  static const std::vector<LineRule> rules{fence,     curly,     colon,           semicolon,     date,
                                           truth,     inch_sign, bare_quantities, unclosed,      spaced_key,
                                           bare_text, columns,   no_equals_sign,  remark_goes_on};
  return rules;
}

std::optional<std::string> date_meant(const std::string& typed) {
  static const std::regex year_last{R"((\d{1,2})([-./])\s*(\d{1,2})[-./]\s*(\d{4}))"};
  static const std::regex year_first{R"((\d{4})[-./](\d{1,2})[-./](\d{1,2}))"};
  const auto written = [](int year, int month, int day) {
    return fmt::format("{:04}-{:02}-{:02}", year, month, day);
  };
  std::smatch m;
  if (std::regex_match(typed, m, year_first)) return written(std::stoi(m[1]), std::stoi(m[2]), std::stoi(m[3]));
  if (!std::regex_match(typed, m, year_last)) return std::nullopt;
  const int one = std::stoi(m[1]), other = std::stoi(m[3]), year = std::stoi(m[4]);
  const std::string day_first = written(year, other, one), month_first = written(year, one, other);
  if (other > 12) return month_first;
  // By points the day stands first wherever they are used; by slashes that differs from country to country.
  const bool either = m.str(2) == "/" && one <= 12 && one != other;
  return either ? month_first + "  or  " + day_first : day_first;
}

std::string without_remark(const std::string& line) {
  bool in_quotes = false;
  std::size_t end = 0;
  for (; end < line.size() && (in_quotes || line[end] != '#'); ++end) {
    if (line[end] == '"') in_quotes = !in_quotes;
  }
  // Where a quote is open to the line's end the remark is taken to be one all the same.
  if (in_quotes) end = std::min(line.find("  #"), line.size());
  const auto begin = line.find_first_not_of(" \t");
  if (begin >= end) return {};
  return line.substr(begin, line.find_last_not_of(" \t\r", end - 1) - begin + 1);
}

}  // namespace blankwright
