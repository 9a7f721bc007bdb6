#include "commands/run.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <ostream>
#include <system_error>
#include <utility>

#include "commands/command_line.h"
#include "commands/harmless_stream.h"
#include "diagnose/failure.h"
#include "measure/instant.h"
#include "measure/nearest.h"

namespace blankwright {
namespace {

/// The names that `typed` may have been meant for, as a way on; or empty.
std::string did_you_mean(const std::string& typed, const std::vector<std::string>& known) {
  const auto near = nearest_names(typed, known, 2);
  return near.empty() ? "" : fmt::format("; did you mean {}?", fmt::join(near, " or "));
}

/// What is misspelt on a command line that could not be read: its command, or an option of it; or empty.
std::string misspelt(const CommandLine& line, const std::vector<std::string>& arguments) {
  if (arguments.size() < 2) return {};
  const std::string& typed = arguments.at(1);
  std::vector<std::string> names;
  for (const auto& [command, runs] : line.commands) names.push_back(command->get_name());
  const auto asked = std::ranges::find(names, typed);
  if (asked == names.end()) {
    return typed.starts_with('-') ? "" : fmt::format("there is no command `{}`{}", typed, did_you_mean(typed, names));
  }
  std::vector<std::string> options;
  for (const CLI::Option* option :
       line.commands.at(static_cast<std::size_t>(asked - names.begin())).first->get_options()) {
    for (const std::string& name : option->get_lnames()) options.push_back("--" + name);
  }
  for (std::size_t i = 2; i < arguments.size() && arguments.at(i) != "--"; ++i) {
    const std::string option = arguments.at(i).substr(0, arguments.at(i).find('='));
    if (!option.starts_with("--") || std::ranges::find(options, option) != options.end()) continue;
    return fmt::format("`{}` has no option `{}`{}", typed, option, did_you_mean(option, options));
  }
  return {};
}

Exit parsed(const std::vector<std::string>& arguments, Surroundings& around) {
  const auto line = command_line();
  try {
    std::vector<std::string> reversed{arguments.rbegin(), arguments.rend() - (arguments.empty() ? 0 : 1)};
    line->app.parse(std::move(reversed));
  } catch (const CLI::Success& asked) {
    line->app.exit(asked, around.out, around.errors);
    return Exit::done;
  } catch (const CLI::ParseError& error) {
    const std::string words = misspelt(*line, arguments);
    around.errors << "blankwright: " << (words.empty() ? error.what() : words)
                  << "\n`blankwright --help` tells what can be asked.\n";
    return Exit::command_line;
  }
  const auto asked = std::ranges::find_if(line->commands, [](const auto& one) { return one.first->parsed(); });
  BW_EXPECT(asked != line->commands.end());
  return asked->second(around);
}

}  // namespace

Exit run(const std::vector<std::string>& arguments, Surroundings& outside) {
  HarmlessBuffer to_out{outside.out, HarmlessBuffer::Lines::of_tables};
  HarmlessBuffer to_errors{outside.errors, HarmlessBuffer::Lines::of_words};
  std::ostream out{&to_out};
  std::ostream errors{&to_errors};
  Surroundings around{
      outside.disk, outside.clock,           outside.chance,       outside.in,      out,
      errors,       outside.errors_terminal, outside.out_terminal, outside.may_ask, outside.zone_here};
  try {
    const Exit exit = parsed(arguments, around);
    around.out.flush();
    if (!around.out) throw WorldError("standard output", "could not be written to");
    return exit;
  } catch (const WorldError& error) {
    around.errors << "blankwright: " << error.what() << "\n";
    return Exit::world;
  } catch (const std::bad_alloc&) {
    around.errors << "blankwright: out of memory\n";
    return Exit::world;
  } catch (const NoZoneData& error) {
    around.errors << "blankwright: " << error.what() << "\n";
    return Exit::world;
  } catch (const std::system_error& error) {  // no thread to be had, say
    around.errors << "blankwright: " << error.what() << "\n";
    return Exit::world;
  } catch (const std::exception& error) {
    around.errors << fmt::format(
        "blankwright: a fault of the program, not of your files: {}\n"
        "Please report this line together with the command and the files that led to it.\n",
        error.what());
    return Exit::ours;
  }
}

}  // namespace blankwright
