#include "commands/command_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "commands/command_line.h"

namespace blankwright {
namespace {

/// The words of "FORM:{text,csv,json}".
std::vector<std::string> words_in(const std::string& type) {
  std::vector<std::string> words;
  const auto open = type.find('{');
  if (open == std::string::npos) return words;
  std::string word;
  for (const char c : type.substr(open + 1)) {
    if (c != ',' && c != '}') {
      word += c;
      continue;
    }
    words.push_back(word);
    word.clear();
    if (c == '}') break;
  }
  return words;
}

std::string in_capitals(std::string text) {
  std::ranges::transform(text, text.begin(), [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return text;
}

std::string takes_of(const CLI::Option& positional) {
  const std::string name =
      in_capitals(positional.get_name()) + (positional.get_items_expected_max() > 1 ? "..." : "");
  return positional.get_required() ? name : "[" + name + "]";
}

CommandFacts facts_of(const CLI::App& command) {
  CommandFacts facts{command.get_name(), command.get_description(), {}, {}, {}};
  for (const CLI::Option* option : command.get_options()) {
    if (option->get_positional()) {
      if (facts.takes.empty()) facts.words = words_in(option->get_type_name());
      facts.takes += (facts.takes.empty() ? "" : " ") + takes_of(*option);
    } else if (option->get_lnames().front() != "help") {
      const std::string type = option->get_type_size() == 0 ? "" : option->get_type_name();
      facts.options.push_back({"--" + option->get_lnames().front(), type.substr(0, type.find(':')), words_in(type),
                               option->get_description()});
    }
  }
  return facts;
}

}  // namespace

std::vector<CommandFacts> command_facts() {
  std::vector<CommandFacts> all;
  const auto line = command_line();
  for (const auto& [command, runs] : line->commands) all.push_back(facts_of(*command));
  return all;
}

}  // namespace blankwright
