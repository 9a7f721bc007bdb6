#pragma once

#include <string>
#include <vector>

namespace blankwright {

/// What a command can be told by name: "--shop FILE".
struct OptionFacts {
  std::string name;                ///< "--shop"
  std::string takes;               ///< "FILE"; empty where it takes nothing
  std::vector<std::string> words;  ///< that may stand for it; empty where anything may
  std::string says;
};

struct CommandFacts {
  std::string name, says;
  std::string takes;               ///< what stands behind its name without one of its own: "[JOBS...]"
  std::vector<std::string> words;  ///< that may stand first there; empty where anything may
  std::vector<OptionFacts> options;
};

/// All commands as the command line reads them: for the manual and what a shell completes.
std::vector<CommandFacts> command_facts();

}  // namespace blankwright
