#include <fmt/format.h>

#include <ostream>

#include "commands/command_facts.h"
#include "commands/commands.h"
#include "commands/manual_texts.h"
#include "commands/shipped.h"
#include "entries/entry_kind.h"

namespace blankwright {
namespace {

constexpr std::string_view files = "@files";  // the shell lists files here
constexpr std::string_view ids_in_work = "$(blankwright ask under-way --as csv 2>/dev/null | sed -e 1d -e 's/,.*//')";

/// What a shell script's single quotes hold; no name of ours has one in it.
std::string joined(const std::vector<std::string>& words) { return fmt::format("{}", fmt::join(words, " ")); }

std::string options_of(const CommandFacts& command) {
  std::vector<std::string> names;
  for (const OptionFacts& option : command.options) names.push_back(option.name);
  return joined(names);
}

/// What can stand first behind a command's name, and what behind that.
struct Behind {
  std::string first, further;
};

Behind behind(const CommandFacts& command) {
  std::vector<std::string> words;
  if (command.name == "enter") {
    for (const KindFacts& kind : kind_list()) words.emplace_back(kind.name);
    std::vector<std::string> fields;
    for (const FieldFacts& field : field_list()) fields.push_back(std::string{field.name} + "=");
    return {joined(words), joined(fields) + " " + std::string{ids_in_work}};
  }
  if (command.name == "ask") {
    for (const Question& question : questions()) words.emplace_back(question.what);
    return {joined(words), std::string{ids_in_work}};
  }
  if (command.name == "known") {
    for (const KnownThing& thing : known_things()) words.emplace_back(thing.name);
    return {joined(words), {}};
  }
  if (command.name == "manual") {
    for (const ManualPage& page : manual_pages()) words.push_back(page.name);
    return {joined(words), {}};
  }
  if (!command.words.empty()) return {joined(command.words), {}};
  return command.takes.empty() ? Behind{} : Behind{std::string{files}, std::string{files}};
}

/// A function of the shell that prints what may stand in a place: COMMAND, the word before, its number.
std::string words_function() {
  std::string commands, options, places;
  for (const CommandFacts& command : command_facts()) {
    commands += " " + command.name;
    for (const OptionFacts& option : command.options) {
      const bool is_path = option.takes == "FILE" || option.takes == "PATH";
      if (option.takes.empty()) continue;
      options += fmt::format("    '{} {}') echo \"{}\"; return ;;\n", command.name, option.name,
                             is_path ? std::string{files} : joined(option.words));
    }
    const Behind words = behind(command);
    places += fmt::format("    {}) if [ \"$3\" -eq 2 ]; then echo \"{}\"; else echo \"{}\"; fi; echo '{}' ;;\n",
                          command.name, words.first, words.further, options_of(command));
  }
  return fmt::format(
      "_blankwright_words() {{\n  if [ \"$3\" -eq 1 ]; then echo '{}'; return; fi\n"
      "  case \"$1 $2\" in\n{}  esac\n  case \"$1\" in\n{}  esac\n}}\n",
      commands.substr(1), options, places);
}

}  // namespace

Exit completions(const CompletionsFlags& flags, Surroundings& around) {
  const bool zsh = flags.shell == "zsh";
  around.out << (zsh ? "#compdef blankwright\n" : "# bash completion for blankwright\n") << words_function()
             << shipped(zsh ? "zsh.sh" : "bash.sh");
  return Exit::done;
}

}  // namespace blankwright
