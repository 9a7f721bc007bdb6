#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "commands/surroundings.h"

namespace blankwright {

/// Runs a command with the flags that were given.
using Runs = std::function<Exit(Surroundings&)>;

/// All that can be typed, and what runs each command.
struct CommandLine {
  CLI::App app{"Blankwright: orders for resin-stabilised handle blanks in, a turner's traveller and tags out.",
               "blankwright"};
  std::vector<std::pair<CLI::App*, Runs>> commands;
};
std::unique_ptr<CommandLine> command_line();

}  // namespace blankwright
