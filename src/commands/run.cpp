#include "commands/run.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <ostream>
#include <system_error>
#include <utility>

#include "commands/command_line.h"
#include "commands/harmless_stream.h"
#include "commands/misspelt.h"
#include "diagnose/failure.h"
#include "measure/instant.h"

namespace blankwright {
namespace {

Exit parsed(const std::vector<std::string>& arguments, Surroundings& around) {
  const auto line = command_line();
  try {
    std::vector<std::string> reversed{arguments.rbegin(), arguments.rend() - (arguments.empty() ? 0 : 1)};
    line->app.parse(std::move(reversed));
  } catch (const CLI::Success& asked) {
    line->app.exit(asked, around.out, around.errors);
    return Exit::done;
  } catch (const CLI::ParseError& error) {
    const std::string words = misspelt(arguments);
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
  Surroundings around{outside.disk,
                      outside.clock,
                      outside.chance,
                      outside.in,
                      out,
                      errors,
                      outside.errors_terminal,
                      outside.out_terminal,
                      outside.may_ask,
                      outside.zone_here,
                      outside.program_file};
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
