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
inline ProgramRun run_program(std::vector<std::string> arguments, std::int64_t now_unix = 1809345600,
                              const std::string& typed = {}, std::uint32_t drawn = 0) {
  RealFiles disk;
  const FixedClock clock{now_unix};
  FixedChance chance{drawn};
  std::istringstream in{typed};
  std::ostringstream out;
  std::ostringstream errors;
  Surroundings around{disk, clock, chance, in, out, errors, {}};
  arguments.insert(arguments.begin(), "blankwright");
  const Exit exit = run(arguments, around);
  return {exit, out.str(), errors.str()};
}

/// The sample jobs, copied, since a register is made beside a shop file.
class SampleJobs {
 public:
  SampleJobs() {
    std::filesystem::copy(BLANKWRIGHT_SOURCE_DIR "/sample-jobs", folder_ / "jobs",
                          std::filesystem::copy_options::recursive);
    for (const auto& entry : std::filesystem::recursive_directory_iterator{folder_ / "jobs"}) {
      if (entry.path().extension() == ".register") std::filesystem::remove(entry.path());
    }
  }
  std::string operator/(std::string_view name) const { return folder_ / ("jobs/" + std::string{name}); }
  std::string out() const { return folder_ / "out"; }
  /// A folder for the shop of this job alone: "metric/burnisher.toml". Two shops cannot write into one.
  std::string out(std::string_view job) const {
    return folder_ / ("out-" + std::string{job.substr(0, job.find('/'))});
  }

 private:
  TemporaryFolder folder_;
};

struct Sample {
  std::string job, id;
  std::string paper;  ///< as pdfinfo names its size in points
};

inline const std::vector<Sample>& samples() {
  static const std::vector<Sample> all{{"metric/burnisher.toml", "TA-0147", "595.276 x 841.89"},
                                       {"inch/file-handle.toml", "CC-2026.1", "612 x 792"},
                                       {"inch/knob.toml", "CC-2026.2", "612 x 792"}};
  return all;
}

}  // namespace blankwright
