#pragma once

#include <iosfwd>
#include <string>

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
  Terminal out_terminal{};
  bool may_ask = false;        ///< somebody sits at the terminal and can answer
  std::string zone_here{};     ///< the machine's time zone by its IANA name; empty where it is not known
  std::string program_file{};  ///< the path of the program itself, from the root; likewise
};

}  // namespace blankwright
