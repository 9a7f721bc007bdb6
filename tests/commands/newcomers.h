#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

// Mistakes of people who write their first files: tests/errors/newcomers.

namespace blankwright {

using NewcomersFiles = std::map<std::string, std::string>;  ///< by name

inline const std::string first_job = "H-0201.toml";

/// Lines that stand in place of some of a file's.
struct Stretch {
  std::string file;
  std::size_t first = 0, count = 0;  ///< of the file's own lines; from 1
  std::vector<std::string> lines;
};

struct NewcomersMistake {
  std::string what;
  std::vector<Stretch> wrong, mended;
  std::string args;  ///< what was typed, "typed " before it at the bench; empty: check H-0201.toml
  std::vector<std::string> says;
  std::string then;        ///< likewise, once it is mended
  bool is_read = false;    ///< no mistake to the program
  bool is_unseen = false;  ///< it cannot be seen
};

std::vector<NewcomersMistake> newcomers_mistakes();

/// The job and the shop file that all of them start from, with these lines in place of theirs.
NewcomersFiles files_with(const std::vector<Stretch>& stretches);

}  // namespace blankwright
