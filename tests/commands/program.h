#pragma once

#include <filesystem>
#include <sstream>
#include <string>
#include <vector>

#include "commands/run.h"
#include "memory_files.h"
#include "paper.h"
#include "temporary_folder.h"
#include "write/real_files.h"

namespace blankwright {

/// What a run of the program came to.
struct ProgramRun {
  Exit exit{};
  std::string out, errors;
};

/// Runs the program in this process, on the real disk, at noon of 3 May 2027 UTC. A register that it makes has the
/// series that begins with BlankId::nth(drawn), unless the shop file names one.
ProgramRun run_program(std::vector<std::string> arguments, std::int64_t now_unix = 1809345600,
                       const std::string& typed = {}, std::uint32_t drawn = 0);

/// The sample jobs, copied, since a register is made beside a shop file.
class SampleJobs {
 public:
  SampleJobs();
  std::string operator/(std::string_view name) const { return folder_ / ("jobs/" + std::string{name}); }
  std::string out() const { return folder_ / "out"; }
  /// A folder for the shop of this job alone: "metric/burnisher.toml". Two shops cannot write into one.
  std::string out(std::string_view job) const;

 private:
  TemporaryFolder folder_;
};

/// Replaces the first such stretch of a file, which must stand there.
void change(const std::string& file, const std::string& from, const std::string& to);

struct Sample {
  std::string job, id;
  std::string paper;  ///< as pdfinfo names its size in points
};

const std::vector<Sample>& samples();

}  // namespace blankwright
