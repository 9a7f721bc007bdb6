#include "commands/manual_texts.h"

#include <fmt/format.h>

#include <array>
#include <string>
#include <string_view>

#include "commands/command_facts.h"
#include "commands/commands.h"
#include "commands/shipped.h"
#include "diagnose/failure.h"
#include "entries/entry_kind.h"
#include "read/entry_text.h"
#include "read/shape.h"
#include "write/schema_json.h"

namespace blankwright {
namespace {

std::string commands_text() {
  std::string out;
  for (const CommandFacts& command : command_facts()) {
    out += fmt::format("### {}{}{}\n\n{}.\n\n", command.name, command.takes.empty() ? "" : " ", command.takes,
                       command.says);
    if (command.options.empty()) continue;
    out += "| option | what it does |\n|---|---|\n";
    for (const OptionFacts& option : command.options) {
      out +=
          fmt::format("| `{}{}{}` | {} |\n", option.name, option.takes.empty() ? "" : " ", option.takes, option.says);
    }
    out += "\n";
  }
  return out;
}

std::string questions_text() {
  std::string out = "| question | what it tells |\n|---|---|\n";
  for (const Question& question : questions()) {
    out += fmt::format("| `ask {}{}{}` | {} |\n", question.what, question.name.empty() ? "" : " ", question.name,
                       question.tells);
  }
  return out;
}

std::string kinds_text() {
  std::string out = "| kind of entry | what it says |\n|---|---|\n";
  for (const KindFacts& kind : kind_list()) {
    if (kind.kind == EntryKind::issued) continue;  // compile enters it
    out += fmt::format("| `{}` | {} |\n", entry_usage(kind), kind.says);
  }
  return out;
}

std::string fields_text() {
  std::string out = "| field | what it is |\n|---|---|\n";
  for (const FieldFacts& field : field_list()) {
    if (field.field == Field::role) continue;  // compile says it
    out += fmt::format("| `{}` | {} |\n", field.name, field_usage(field));
  }
  return out;
}

/// What stands in the texts for a list of the program's: `{{keys of job}}`.
struct Placeholder {
  std::string_view name;
  std::string (*text)();
};
constexpr std::array placeholders{
    Placeholder{"{{commands}}", commands_text},
    Placeholder{"{{exit statuses}}", [] { return std::string{exit_statuses}; }},
    Placeholder{"{{questions}}", questions_text},
    Placeholder{"{{kinds of entry}}", kinds_text},
    Placeholder{"{{fields of entry}}", fields_text},
    Placeholder{"{{keys of job}}", [] { return key_table(job_key_infos()); }},
    Placeholder{"{{keys of shop}}", [] { return key_table(shop_key_infos()); }},
    Placeholder{"{{keys of template}}", [] { return key_table(template_key_infos()); }},
};

std::string with_lists(std::string text) {
  for (const Placeholder& one : placeholders) {
    const auto at = text.find(one.name);
    if (at != std::string::npos) text.replace(at, one.name.size(), one.text());
  }
  BW_EXPECT(text.find("{{") == std::string::npos);
  return text;
}

struct PageFile {
  std::string_view name, says;
  int section;  ///< of what `man` reads: 1 commands, 5 files, 7 the rest
};
constexpr std::array page_files{
    PageFile{"commands", "all that can be typed", 1},
    PageFile{"job", "the job file: one order", 5},
    PageFile{"shop", "the shop file: what is true of the shop", 5},
    PageFile{"template", "the template file: words and places on paper", 5},
    PageFile{"planning", "from jobs to sheets, and how the plan follows the work", 7},
    PageFile{"entries", "what happened to each blank: entries, gates, questions", 7},
    PageFile{"register", "where it stands, copies of it, several benches", 7},
    PageFile{"promises", "what stays as it is from version to version", 7},
    PageFile{"licences", "what the program is linked with", 7},
};

}  // namespace

const std::vector<ManualPage>& manual_pages() {
  static const std::vector<ManualPage> pages = [] {
    std::vector<ManualPage> all;
    for (const PageFile& file : page_files) {
      const std::string text = with_lists(std::string{shipped(fmt::format("{}.md", file.name))});
      all.push_back({std::string{file.name}, std::string{file.says}, file.section, read_manual(text)});
    }
    return all;
  }();
  return pages;
}

}  // namespace blankwright
