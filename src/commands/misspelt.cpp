#include "commands/misspelt.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "commands/command_facts.h"
#include "measure/nearest.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

/// What people type for a command that has another name here.
constexpr auto other_names = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"print", "compile"}, {"make", "compile"},   {"build", "compile"},  {"run", "compile"},  {"plan", "compile"},
    {"new", "begin"},     {"init", "begin"},     {"start", "begin"},    {"setup", "begin"},  {"create", "begin"},
    {"test", "check"},    {"verify", "check"},   {"validate", "check"}, {"list", "known"},   {"search", "known"},
    {"find", "known"},    {"show", "ask"},       {"query", "ask"},      {"status", "today"}, {"add", "enter"},
    {"log", "enter"},     {"record", "enter"},   {"scan", "bench"},     {"help", "--help"},  {"version", "--version"},
    {"backup", "export"}, {"restore", "import"}, {"labels", "proof"},   {"tags", "compile"}, {"why", "explain"},
});

std::string did_you_mean(const std::string& typed, const std::vector<std::string>& known) {
  const auto near = nearest_names(typed, known, 2);
  return near.empty() ? "" : fmt::format("; did you mean {}?", fmt::join(near, " or "));
}

std::string unknown_command(const std::string& typed, const std::vector<CommandFacts>& commands) {
  if (typed.ends_with(".toml")) {
    return fmt::format("`{0}` is a file; what is to be done with it stands first: compile {0}, or check {0}", typed);
  }
  const auto* const other =
      std::ranges::find(other_names, ascii_lower(typed), [](const auto& one) { return std::string{one.first}; });
  if (other != other_names.end())
    return fmt::format("there is no command `{}`; did you mean {}?", typed, other->second);
  std::vector<std::string> names;
  for (const CommandFacts& command : commands) names.push_back(command.name);
  return fmt::format("there is no command `{}`{}", typed, did_you_mean(typed, names));
}

}  // namespace

std::string misspelt(const std::vector<std::string>& arguments) {
  if (arguments.size() < 2 || arguments.at(1).starts_with('-')) return {};
  const auto commands = command_facts();
  const auto command = std::ranges::find(commands, arguments.at(1), &CommandFacts::name);
  if (command == commands.end()) return unknown_command(arguments.at(1), commands);
  std::vector<std::string> options, with_values;
  for (const OptionFacts& option : command->options) {
    options.push_back(option.name);
    with_values.push_back(option.name + (option.takes.empty() ? "" : " ") + option.takes);
  }
  for (std::size_t i = 2; i < arguments.size() && arguments.at(i) != "--"; ++i) {
    std::string option = arguments.at(i).substr(0, arguments.at(i).find('='));
    if (!option.starts_with('-') || option.size() < 3 || std::ranges::find(options, option) != options.end())
      continue;
    const std::string typed = option;
    if (!option.starts_with("--")) option.insert(0, 1, '-');
    std::string meant = did_you_mean(option, options);
    if (meant.empty()) {
      meant = with_values.empty() ? "; it has none" : fmt::format("; it has {}", fmt::join(with_values, ", "));
    }
    return fmt::format("`{}` has no option `{}`{}", command->name, typed, meant);
  }
  return {};
}

}  // namespace blankwright
