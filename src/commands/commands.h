#pragma once

#include <string>
#include <vector>

#include "commands/run.h"

namespace blankwright {

struct CheckFlags {
  std::vector<std::string> jobs;
  std::string shop;
  bool quiet = false;
};

struct CompileFlags {
  std::vector<std::string> jobs;
  std::string shop;
  std::string out = "sheets";
  std::string at;                 ///< RFC 3339, or empty for now
  std::vector<std::string> only;  ///< of compile_outputs(); empty for all
  int threads = 0;                ///< 0: as many as there are cores
  bool draft = false;
  bool quiet = false;
};

struct ExplainFlags {
  std::string job;
  std::string figure;
  std::string shop;
};

struct SchemaFlags {
  std::string file;
  bool table = false;
};

/// What compile can be told to write, for `--only`.
const std::vector<std::string>& compile_outputs();

Exit check(const CheckFlags& flags, Surroundings& around);
Exit compile(const CompileFlags& flags, Surroundings& around);
Exit explain(const ExplainFlags& flags, Surroundings& around);
Exit schema(const SchemaFlags& flags, Surroundings& around);

/// The worse of two ends.
inline Exit worse(Exit a, Exit b) { return static_cast<int>(a) > static_cast<int>(b) ? a : b; }

}  // namespace blankwright
