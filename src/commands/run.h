#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "write/files.h"

namespace blankwright {

/// How a run ended, for the shell; of several orders the highest.
enum class Exit { done = 0, mistakes = 1, command_line = 2, world = 3, ours = 70 };

/// The world, handed in.
struct Surroundings {
  Files& disk;
  const Clock& clock;
  Chance& chance;
  std::istream& in;
  std::ostream& out;
  std::ostream& errors;
  Terminal errors_terminal;
};

/// Runs the program with its arguments, the program's name first. Whatever goes wrong ends in a status and words.
Exit run(const std::vector<std::string>& arguments, Surroundings& around);

}  // namespace blankwright
