#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

#include "write/manual.h"

namespace blankwright {
namespace {

using Look = ManualWords::Look;

/// How a character that groff would take for something else is written.
std::string_view groff_name(char c) {
  constexpr std::array<std::pair<char, std::string_view>, 6> names{
      {{'\\', "\\e"}, {'-', "\\-"}, {'`', "\\(ga"}, {'^', "\\(ha"}, {'~', "\\(ti"}, {'\'', "\\(aq"}}};
  const auto* const found = std::ranges::find(names, c, &std::pair<char, std::string_view>::first);
  return found == names.end() ? std::string_view{} : found->second;
}

/// Text that groff prints as it is; no line begins like a request.
std::string escaped(std::string_view text, bool line_begins) {
  std::string out = line_begins && text.starts_with('.') ? "\\&" : "";
  for (const char c : text) {
    const std::string_view name = groff_name(c);
    if (name.empty()) out += c;
    out += name;
  }
  return out;
}

std::string in_capitals(std::string text) {
  std::ranges::transform(text, text.begin(), [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return text;
}

std::string words_of(const ManualLine& line, const std::vector<ManualPage>& others) {
  std::string out;
  for (const ManualWords& words : line) {
    const std::string text = escaped(words.text, out.empty());
    out += words.look == Look::plain ? text : "\\fB" + text + "\\fR";
    const auto page = std::ranges::find(others, words.leads_to, &ManualPage::name);
    if (page != others.end()) out += fmt::format(" (\\fB{}\\fR({}))", escaped(man_name(*page), false), page->section);
  }
  return out;
}

std::string example_of(std::string_view text) {
  std::string out = ".PP\n.RS 4\n.EX\n";
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    out += escaped(line, true) + "\n";
    text.remove_prefix(std::min(text.size(), line.size() + 1));
  }
  return out + ".EE\n.RE\n";
}

std::string table_of(const ManualBlock& table, const std::vector<ManualPage>& others) {
  std::string out;
  const auto& head = table.rows.front();
  for (std::size_t i = 1; i < table.rows.size(); ++i) {
    const auto& row = table.rows.at(i);
    out += ".TP\n" + words_of(row.front(), others) + "\n";
    for (std::size_t column = 1; column < row.size(); ++column) {
      if (column > 1) out += ".br\n";
      if (row.size() > 2) out += escaped(head.at(column).front().text, true) + ": ";
      out += words_of(row.at(column), others) + "\n";
    }
  }
  return out;
}

}  // namespace

std::string man_name(const ManualPage& page) {
  return page.section == 1 ? "blankwright" : "blankwright-" + page.name;
}

std::string manual_as_man(const ManualPage& page, const std::vector<ManualPage>& others, std::string_view version) {
  std::string out =
      fmt::format(".TH {} {} \"\" \"{}\" \"Blankwright\"\n.SH NAME\n{} \\- {}\n", in_capitals(man_name(page)),
                  page.section, version, escaped(man_name(page), true), escaped(page.says, false));
  for (const ManualBlock& block : page.blocks) {
    using Type = ManualBlock::Type;
    switch (block.type) {
      case Type::heading:
        if (block.level == 1) break;  // NAME says it
        out += (block.level == 2 ? ".SH " : ".SS ") + words_of(block.line, others) + "\n";
        break;
      case Type::paragraph:
        out +=
            (&block == page.blocks.data() + 1 ? ".SH DESCRIPTION\n" : ".PP\n") + words_of(block.line, others) + "\n";
        break;
      case Type::item:
        out += fmt::format(".IP \\(bu {}\n", 2 + 2 * block.level) + words_of(block.line, others) + "\n";
        break;
      case Type::example:
        out += example_of(block.example);
        break;
      case Type::table:
        out += table_of(block, others);
        break;
    }
  }
  return out;
}

}  // namespace blankwright
